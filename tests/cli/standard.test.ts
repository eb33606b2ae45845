import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { createLogbook, folderStore, history, openLogbook, record } from "../../src/logbook/entries/index.ts";
import { keyPairFromSeed } from "../../src/logbook/signing/index.ts";
import { expectGolden } from "../report/golden.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "..", "..", "samples");
const cwd = mkdtempSync(join(tmpdir(), "boothkeep-standard-"));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

cpSync(join(samples, "profiles"), join(cwd, "profiles"), { recursive: true });
cpSync(join(samples, "screens"), join(cwd, "screens"), { recursive: true });
for (const version of ["1.0.0", "1.1.0"]) {
  cpSync(join(samples, "standards", `house-71-${version}.json`), join(cwd, `house-71-${version}.json`));
}

const read = (name: string) => JSON.parse(readFileSync(join(cwd, name), "utf8"));
const run = (...args: string[]) => runCommand(args, { cwd });

/** A logbook with both large screens as left. */
function makeLogbook(): void {
  const logbook = createLogbook(folderStore(join(cwd, "logbook")), {
    id: "018f3f2e-0000-7000-8000-000000000008",
    startedAt: "2026-03-01T08:00:00Z",
  });
  for (const site of ["lantern-mill", "copper-heron"]) {
    record(logbook, {
      configuration: read(`screens/${site}/screen-1.json`),
      reason: "as-left",
      recordedAt: "2026-03-20T22:00:00Z",
      recordedBy: "Alignment team",
    });
  }
}
makeLogbook();

describe("boothkeep standard", () => {
  let folder = "";

  it("proposes what follows, asks about what does not, and fills nothing in by itself", async () => {
    const args = [
      "standard",
      "propose",
      "house-71-1.1.0.json",
      "logbook",
      "--out",
      "out",
      "--followed",
      "house-71-1.0.0.json",
    ];
    const result = await run(...args, "--json");
    expect(result.code).toBe(4);
    const { proposals, folder: round } = JSON.parse(result.out);
    folder = round;
    expect(
      proposals.map((item: { outcome: string; screen: { siteId: string } }) => [
        item.screen.siteId,
        item.outcome,
      ]),
    ).toEqual([
      ["copper-heron", "open"],
      ["lantern-mill", "proposed"],
    ]);
    expect(existsSync(join(cwd, folder, "copper-heron/screen-1.configuration.json"))).toBe(false);
    expect(
      read(`${folder}/lantern-mill/screen-1.configuration.json`).presets.find(
        ({ id }: { id: string }) => id === "trailers-71",
      ).levelDb,
    ).toBe(-4);
    expectGolden(
      "standard/lantern-mill.work-list.txt",
      readFileSync(join(cwd, folder, "lantern-mill.work-list.txt"), "utf8"),
    );
    // The same command goes on where it was: equal files are left as they are.
    rmSync(join(cwd, folder, "copper-heron/screen-1.proposal.json"));
    expect((await run(...args)).code).toBe(4);
    expect(existsSync(join(cwd, folder, "copper-heron/screen-1.proposal.json"))).toBe(true);
  });

  it("takes the answers of one decisions file and says which were for nothing", async () => {
    const decisions = read(`${folder}/decisions.json`);
    expect(decisions.answers.map(({ place }: { place: string }) => place)).toEqual([
      "presets/trailers-51/levelDb",
      "presets/trailers-71/levelDb",
    ]);
    const answers = [
      { place: "presets/trailers-*/levelDb", choose: "standard" },
      { place: "presets/trailer-*/levelDb", choose: "standard" },
    ];
    writeFileSync(join(cwd, "answers.json"), JSON.stringify({ ...decisions, answers }));
    const result = await run(
      "standard",
      "propose",
      "house-71-1.1.0.json",
      "logbook",
      "--out",
      "out",
      "--followed",
      "house-71-1.0.0.json",
      "--decisions",
      "answers.json",
    );
    expect(result.err).toContain("nothing asked about 'presets/trailer-*/levelDb'");
    expect(result.code).toBe(0);
    expectGolden("standard/proposals.txt", result.out.replaceAll(/-[0-9a-f]{8}\//g, "-XXXXXXXX/"));
  });

  it("records nothing as done before the unit was read back and holds it", async () => {
    const proposal = `${folder}/lantern-mill/screen-1.proposal.json`;
    const confirm = (file: string) =>
      run(
        "standard",
        "confirm",
        "logbook",
        proposal,
        file,
        "--standard",
        "house-71-1.1.0.json",
        "--by",
        "Service team",
      );
    const other = await confirm("screens/lantern-mill/screen-1.json");
    expect(other.code).toBe(1);
    expect(other.out).toContain("Nothing was recorded");
    expect(history(openLogbook(folderStore(join(cwd, "logbook")))).items).toHaveLength(2);
    const held = await confirm(`${folder}/lantern-mill/screen-1.configuration.json`);
    expect(held.code).toBe(0);
    const [last] = history(openLogbook(folderStore(join(cwd, "logbook"))), {
      siteId: "lantern-mill",
    }).items.slice(-1);
    expect(last!.entry).toMatchObject({ reason: "standard-applied", recordedBy: "Service team" });
  });

  it("then knows which version the screen follows", async () => {
    const result = await run(
      "standard",
      "propose",
      "house-71-1.1.0.json",
      "logbook",
      "--out",
      "later",
      "--json",
    );
    const own = JSON.parse(result.out).proposals.find(
      (item: { screen: { siteId: string } }) => item.screen.siteId === "lantern-mill",
    );
    expect(own).toMatchObject({ followed: "1.1.0", outcome: "follows", steps: [] });
  });

  it("refuses decisions for another version", async () => {
    const result = await run(
      "standard",
      "propose",
      "house-71-1.0.0.json",
      "logbook",
      "--out",
      "no",
      "--decisions",
      "answers.json",
    );
    expect(result.code).toBe(2);
    expect(result.err).toContain("Give the one for house-71 1.0.0");
  });

  it.each([
    [
      "two presets in one slot",
      [
        "presets",
        "these-only",
        [
          { id: "a", slot: 1 },
          { id: "b", slot: 1 },
        ],
      ],
      "Slot 1 is for 'a' and for 'b'",
    ],
    [
      "limits the wrong way round",
      ["presets/*/levelDb", "within", 3, -3],
      "The least value is above the greatest",
    ],
    ["a place that is none", ["presets/*/levelDB", "within", -3, 3], "Did you mean 'presets/*/levelDb'?"],
  ])("refuses a standard that contradicts itself, with file and line: %s", async (_name, line, words) => {
    const [place, hold, first, second] = line;
    const held = Array.isArray(first) ? { items: first } : { min: first, max: second };
    const standard = { ...read("house-71-1.0.0.json"), lines: [{ place, hold, ...held }] };
    writeFileSync(join(cwd, "wrong.json"), JSON.stringify(standard));
    const { code, err } = await run("standard", "propose", "wrong.json", "logbook", "--out", "never");
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(err).toContain("file wrong.json, at /lines/0");
    expect(existsSync(join(cwd, "never"))).toBe(false);
  });

  it("refuses a standard that names what its own list forbids", async () => {
    const standard = {
      ...read("house-71-1.0.0.json"),
      lines: [
        { place: "presets", hold: "these-only", items: [{ id: "feature-51" }] },
        { place: "operation/startPresetId", hold: "exactly", value: "feature-71" },
      ],
    };
    writeFileSync(join(cwd, "forbids.json"), JSON.stringify(standard));
    const { code, err } = await run("standard", "propose", "forbids.json", "logbook", "--out", "never");
    expect(code).toBe(2);
    expect(err).toContain("names 'feature-71'");
    expect(err).toContain("/lines/0");
  });

  it("says when a standard is for none of the screens, and writes nothing", async () => {
    const standard = { ...read("house-71-1.0.0.json"), screens: { sites: ["nowhere-*"] } };
    writeFileSync(join(cwd, "nowhere.json"), JSON.stringify(standard));
    const { code, err } = await run("standard", "propose", "nowhere.json", "logbook", "--out", "never");
    expect(code).toBe(2);
    expect(err).toContain("is for none of the 2 documents");
    expect(existsSync(join(cwd, "never"))).toBe(false);
  });

  it("goes on with the other screens when some cannot be read, tells all of these, and writes no work list yet", async () => {
    mkdirSync(join(cwd, "some"));
    cpSync(join(cwd, "screens/lantern-mill/screen-1.json"), join(cwd, "some/a.json"));
    const broken = { ...read("screens/copper-heron/screen-1.json"), presets: "none" };
    writeFileSync(join(cwd, "some/b.json"), JSON.stringify(broken));
    writeFileSync(join(cwd, "some/c.json"), "{");
    const args = ["standard", "propose", "house-71-1.0.0.json", "--out", "partly"];
    const { code, err } = await run(...args, "some/b.json", "some/c.json", "some/a.json");
    expect(code).toBe(2);
    expect(err).toContain("file some/b.json");
    expect(err).toContain("file some/c.json");
    expect(err.replaceAll("\n", " ")).toContain("1 proposed, 2 could not be.");
    expect(Math.max(...err.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
    const round = readdirSync(join(cwd, "partly"))[0]!;
    expect(readdirSync(join(cwd, "partly", round))).toEqual(["lantern-mill"]);
    const after = await run(...args, "some/a.json");
    expect(after.code).toBe(0);
    expect(readdirSync(join(cwd, "partly", round))).toContain("lantern-mill.work-list.html");
  });

  it("signs what it records, and records nothing with a key that is none", async () => {
    const proposal = `${folder}/lantern-mill/screen-1.proposal.json`;
    const file = `${folder}/lantern-mill/screen-1.configuration.json`;
    const confirm = (key: string) =>
      run(
        "standard",
        "confirm",
        "logbook",
        proposal,
        file,
        "--standard",
        "house-71-1.1.0.json",
        "--by",
        "Service team",
        "--key",
        key,
      );
    const items = () =>
      history(openLogbook(folderStore(join(cwd, "logbook"))), { siteId: "lantern-mill" }).items;
    const before = items().length;
    writeFileSync(join(cwd, "no-key.pem"), "no key");
    expect((await confirm("no-key.pem")).code).toBe(2);
    expect((await confirm("missing.pem")).code).toBe(2);
    expect(items()).toHaveLength(before);
    writeFileSync(join(cwd, "key.pem"), keyPairFromSeed(new Uint8Array(32).fill(7)).privateKeyPem);
    const { code, out } = await confirm("key.pem");
    expect(code).toBe(0);
    expect(out).toContain("signed: follows house-71 1.1.0.");
    expect(items().at(-1)!.signatures).toHaveLength(1);
  });

  it("derives a standard that can be used at once", async () => {
    const result = await run("standard", "derive", "screens", "--out", "derived.json", "--format", "7.1DS");
    expect(result.code).toBe(0);
    expect((await run("drift", "derived.json", "screens")).code).toBe(0);
  });
});

describe("boothkeep drift", () => {
  it("says what is off, how far, and since when", async () => {
    const result = await run("drift", "house-71-1.0.0.json", "logbook");
    expect(result.code).toBe(1);
    expectGolden("standard/drift.txt", result.out);
    const { findings, names, entries } = JSON.parse(
      (await run("drift", "house-71-1.0.0.json", "logbook", "--json")).out,
    );
    expect(findings[0]).toMatchObject({ code: "standard/other-value", off: { least: -0.5 } });
    const { screen, since } = findings[0].screens[1];
    expect(names[screen]).toBe("lantern-mill/screen-1");
    expect(entries[since]).toMatchObject({ screen, number: 2, recordedBy: "Service team" });
    expect(entries).toHaveLength(new Set(entries.map((entry: object) => JSON.stringify(entry))).size);
  });

  it("writes one row for each deviation of each screen", async () => {
    const result = await run("drift", "house-71-1.0.0.json", "logbook", "--csv", "drift.csv");
    expect(result.out).toContain("Written: drift.csv");
    const { findings } = JSON.parse((await run("drift", "house-71-1.0.0.json", "logbook", "--json")).out);
    const deviations = findings.flatMap(({ screens }: { screens: unknown[] }) => screens).length;
    const rows = readFileSync(join(cwd, "drift.csv"), "utf8").trimEnd().split("\r\n");
    expect(rows.filter((row) => row.includes("house-71 1.0.0"))).toHaveLength(deviations);
  });

  it("tells a screen whose configuration is lost, and goes on with the others", async () => {
    const folder = "damaged";
    const logbook = createLogbook(folderStore(join(cwd, folder)), {
      id: "018f3f2e-0000-7000-8000-00000000000a",
      startedAt: "2026-03-01T08:00:00Z",
    });
    for (const site of ["lantern-mill", "copper-heron"]) {
      record(logbook, {
        configuration: read(`screens/${site}/screen-1.json`),
        reason: "as-left",
        recordedAt: "2026-03-20T22:00:00Z",
        recordedBy: "Alignment team",
      });
    }
    // What the first configurations of screens rest on.
    for (const site of ["lantern-mill"]) {
      const sha = history(openLogbook(folderStore(join(cwd, folder))), { siteId: site }).items[0]!.entry
        .configuration;
      const references = join(cwd, folder, "references", "skarn-30");
      for (const name of readdirSync(references).filter((item) => item.includes(sha)))
        rmSync(join(references, name));
    }
    const result = await run("drift", "house-71-1.0.0.json", folder, "--json");
    expect(result.code).toBe(3);
    const drift = JSON.parse(result.out);
    expect(drift.unread).toEqual([
      {
        name: "lantern-mill/screen-1",
        words: expect.stringContaining("cannot be put together"),
        isDamaged: true,
      },
    ]);
    expect(drift.screens).toBe(1);
    expect((await run("drift", "house-71-1.0.0.json", folder)).out).toContain("Not read");
  });
});
