import { execFileSync } from "node:child_process";
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { canonicalText, sha256 } from "../../src/base/canonical/index.ts";
import { folderStore, history, openLogbook } from "../../src/logbook/entries/index.ts";
import { fileName, keepRecordFile, packLines } from "../../src/logbook/medium/index.ts";
import { keyPairFromSeed } from "../../src/logbook/signing/index.ts";
import type { Configuration, Entry } from "../../src/model/index.ts";
import { runCommand } from "./run-command.ts";

const root = mkdtempSync(join(tmpdir(), "standing-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const samples = join(import.meta.dirname, "../../samples");
const one = join(samples, "screens/lantern-mill/screen-1.json");
const four = join(samples, "screens/lantern-mill/screen-4.json");
const SCREEN = ["--site", "lantern-mill", "--screen", "screen-1"];
const document = JSON.parse(readFileSync(one, "utf8")) as Configuration;

let cwd = "";
let runs = 0;
const boothkeep = (...args: readonly string[]) => runCommand(args, { cwd });
const words = (text: string) => text.replace(/[┃\s]+/g, " ");
const book = () => openLogbook(folderStore(join(cwd, "book")));
const items = () => history(book(), { siteId: "lantern-mill", screenId: "screen-1" }).items;

async function keep(gainDb: number, reason: string, ...more: readonly string[]): Promise<string> {
  const file = join(cwd, `gain-${gainDb}.json`);
  const [first, ...rest] = document.outputs;
  writeFileSync(file, JSON.stringify({ ...document, outputs: [{ ...first, gainDb }, ...rest] }));
  const at = `2026-0${(items().length % 9) + 1}-02T10:00:00+01:00`;
  const done = await boothkeep(
    "record",
    "book",
    file,
    "--reason",
    reason,
    "--by",
    "Service team",
    "--profiles",
    join(samples, "profiles"),
    "--at",
    at,
    ...more,
  );
  expect([done.code, done.err]).toEqual([0, ""]);
  return /\(([0-9a-f]{64})\)/.exec(done.out)![1]!;
}

const restore = (...args: readonly string[]) =>
  boothkeep("restore", "book", ...SCREEN, "--out", "load.json", ...args);
const filesOf = (folder: string, part: string) =>
  readdirSync(join(cwd, folder), { recursive: true, encoding: "utf8" }).filter(
    (name) => name.includes(part) && name.endsWith(".gz"),
  );

beforeEach(async () => {
  runs += 1;
  cwd = join(root, String(runs));
  mkdirSync(cwd);
  await boothkeep("begin", "book");
});

describe("what is known of an entry is said by every command", () => {
  it("a read-back that differs, until a later one agrees", async () => {
    await keep(-1, "as-left");
    const [first, ...rest] = document.outputs;
    const write = (name: string, gainDb: number) =>
      writeFileSync(
        join(cwd, name),
        JSON.stringify({ ...document, outputs: [{ ...first, gainDb }, ...rest] }),
      );
    write("wrong.json", 11);
    write("right.json", -1);
    expect((await boothkeep("confirm", "book", ...SCREEN, "--by", "Night team", "wrong.json")).code).toBe(1);
    const list = await boothkeep("history", "book");
    expect(words(list.err)).toContain(
      "the last read-back (entry 2, 2026-11-02) differs from what was to be loaded",
    );
    expect(items().map(({ standing }) => standing.readBack.kind)).toEqual(["differs", "differs"]);
    const audit = await boothkeep("audit", "book", "--json");
    const [row] = (
      JSON.parse(audit.out) as {
        audit: { screens: { asLeftAt: string; checks: { check: string; state: string }[] }[] };
      }
    ).audit.screens;
    expect(row!.checks.find(({ check }) => check === "as-left")!.state).toBe("error");
    expect(row!.asLeftAt).toBe(items()[0]!.entry.recordedAt);
    const refused = await boothkeep("pack", "book", ...SCREEN, "--out", "p.zip");
    expect([refused.code, refused.err.includes("logbook.read-back-differs")]).toEqual([3, true]);
    expect(
      (
        await boothkeep(
          "pack",
          "book",
          ...SCREEN,
          "--out",
          "p.zip",
          "--accept-read-back",
          "The amplifier is being replaced.",
        )
      ).code,
    ).toBe(0);
    await boothkeep("unpack", "p.zip", "--out", "out");
    const sheet = await boothkeep("handover-sheet", "book", ...SCREEN);
    expect(sheet.code).toBe(1);
    expect(words(sheet.out)).toContain("DIFFERS from what was to be loaded");
    const visit = await boothkeep("visit", "book", ...SCREEN, "--found", "right.json");
    expect(words(visit.out)).toContain("DIFFERS from what was to be loaded");
    expect((await boothkeep("confirm", "book", ...SCREEN, "--by", "Night team", "right.json")).code).toBe(0);
    expect((await boothkeep("handover-sheet", "book", ...SCREEN)).code).toBe(0);
  });

  it("a pack that was changed under its signature comes in nowhere", async () => {
    const key = keyPairFromSeed(new Uint8Array(32).fill(7));
    writeFileSync(join(cwd, "key.pem"), key.privateKeyPem);
    await keep(-1, "as-left");
    expect((await boothkeep("pack", "book", ...SCREEN, "--out", "p.zip", "--key", "key.pem")).code).toBe(0);
    const { readPack, writePack } = await import("../../src/logbook/pack/index.ts");
    const { zipBytes, unzipBytes } = await import("../../src/logbook/pack/zip.ts");
    const bytes = readFileSync(join(cwd, "p.zip"));
    const signature = (await unzipBytes(bytes)).find(({ name }) => name === "signature.json")!;
    const pack = await readPack(bytes);
    const configuration = {
      ...pack.configuration,
      outputs: (pack.configuration.outputs as { limiter?: unknown }[]).map(
        ({ limiter: _, ...output }) => output,
      ),
    };
    const entry = { ...pack.entry!, configuration: sha256(canonicalText(configuration)) };
    const forged = await writePack({
      ...pack,
      createdAt: pack.manifest.createdAt,
      createdBy: pack.manifest.createdBy,
      configuration,
      entry,
      entrySignatures: [],
      profile: pack.profile,
    });
    writeFileSync(
      join(cwd, "forged.zip"),
      await zipBytes(
        [...(await unzipBytes(forged)), signature].sort(
          (a, b) => Number(b.name === "manifest.json") - Number(a.name === "manifest.json"),
        ),
      ),
    );
    await boothkeep("begin", "other");
    for (const args of [
      ["merge", "other", "forged.zip"],
      ["verify", "book", "--heal-from", "forged.zip"],
      ["validate", "forged.zip"],
      ["match-paper", "forged.zip", "x"],
    ]) {
      const { code, err } = await boothkeep(...args);
      if (args[0] !== "match-paper")
        expect([args[0], code, err.includes("pack.broken-signature")]).toEqual([args[0], 3, true]);
    }
    expect(history(openLogbook(folderStore(join(cwd, "other")))).items).toEqual([]);
  });

  it("a record that the register knows and that is not here", async () => {
    await keep(-1, "as-left");
    const second = await keep(-2, "as-left");
    const withdrawal = await boothkeep(
      "withdraw",
      "book",
      second,
      "--reason",
      "Wrong microphone.",
      "--by",
      "Head office",
    );
    expect(withdrawal.code).toBe(0);
    const told = await restore();
    expect([told.code, words(told.out).includes("Wrong microphone.")]).toEqual([0, true]);
    rmSync(join(cwd, "load.json"));
    rmSync(join(cwd, "load.sheet.txt"));
    const known = new Set(items().map(({ id }) => id));
    const lost = filesOf("book/entries", "").find((name) => ![...known].some((id) => name.includes(id)))!;
    unlinkSync(join(cwd, "book/entries", lost));
    for (const args of [
      ["history", "book"],
      ["show", "book", ...SCREEN],
      ["find", "book", "gainDb"],
      ["audit", "book"],
      [
        "drift",
        join(
          samples,
          "standards",
          readdirSync(join(samples, "standards")).find((name) => name.endsWith(".json"))!,
        ),
        "book",
      ],
      ["validate", "book"],
      ["copy-out", "book", "copy", "--site", "lantern-mill"],
      ["verify", "book"],
    ]) {
      const { code } = await boothkeep(...args);
      expect([args[0], code]).toEqual([args[0], 3]);
    }
    const stopped = await restore();
    expect([
      stopped.code,
      words(stopped.err).includes("1 record of lantern-mill / screen-1 is not here"),
    ]).toEqual([3, true]);
    expect((await restore("--entry", second)).code).toBe(0);
  });

  it("a policy that is missing", async () => {
    const key = keyPairFromSeed(new Uint8Array(32).fill(7));
    writeFileSync(join(cwd, "public.pem"), key.publicKeyPem);
    await keep(-1, "as-left");
    await boothkeep(
      "policy",
      "book",
      "--by",
      "Head office",
      "--need-signature",
      "--trust",
      "North=public.pem",
    );
    expect((await restore()).code).toBe(3);
    for (const name of readdirSync(join(cwd, "book/policy"))) unlinkSync(join(cwd, "book/policy", name));
    const { code, err } = await restore();
    expect([code, words(err).includes("policy of this logbook is missing or damaged")]).toEqual([3, true]);
  });

  it("an entry that names a configuration of another screen, or an impossible number, or is not in its own form", async () => {
    await keep(-1, "as-left");
    await boothkeep("record", "book", four, "--reason", "as-left", "--by", "Service team");
    const [own] = items();
    const [other] = history(book(), { siteId: "lantern-mill", screenId: "screen-4" }).items;
    const forge = (changes: Partial<Entry>, from = own!.entry) => {
      const entry = { ...from, ...changes };
      keepRecordFile(book().store, entry, [
        canonicalText(entry),
        `{"configuration":${canonicalText(JSON.parse(readFileSync(four, "utf8")))},"kind":"boothkeep.whole"}`,
      ]);
      return sha256(canonicalText(entry));
    };
    const wrong = forge({ number: 2, previous: [own!.id], configuration: other!.entry.configuration });
    expect((await restore("--entry", wrong)).err).toContain("logbook.other-screen");
    const verify = await boothkeep("verify", "book");
    expect([verify.code, words(verify.out).includes("another screen or unit")]).toEqual([3, true]);
    await boothkeep("begin", "fresh");
    await boothkeep("merge", "fresh", "book");
    expect(history(openLogbook(folderStore(join(cwd, "fresh")))).items.map(({ id }) => id)).not.toContain(
      wrong,
    );
    const passed = await restore();
    expect([passed.code, words(passed.out).includes("was passed over")]).toEqual([0, true]);

    forge({ number: 1_000_000_000, previous: [] });
    const next = await keep(-3, "as-left");
    expect(items().find(({ id }) => id === next)!.entry.number).toBe(3);

    const loose = JSON.stringify({ ...own!.entry, notes: "spaced" }, null, 1).replaceAll("\n", " ");
    const bytes = packLines([loose]);
    writeFileSync(join(cwd, "book/entries/lantern-mill/screen-1", fileName(sha256(loose), bytes)), bytes);
    expect(items().some(({ id }) => id === sha256(loose))).toBe(false);
    expect((await boothkeep("history", "book")).code).toBe(3);
  });

  it("a bound file that is empty or gone, and what heals it and the header", async () => {
    await keep(-1, "as-left");
    await boothkeep("bind", "book");
    cpSync(join(cwd, "book"), join(cwd, "copy"), { recursive: true });
    const [bound] = readdirSync(join(cwd, "book/bound"));
    writeFileSync(join(cwd, "book/bound", bound!), "");
    for (const args of [
      ["history", "book"],
      ["history", "book", "--site", "lantern-mill"],
      ["audit", "book"],
      ["verify", "book"],
    ]) {
      expect([args.join(" "), (await boothkeep(...args)).code]).toEqual([args.join(" "), 3]);
    }
    expect((await restore()).code).toBe(3);
    unlinkSync(join(cwd, "book/bound", bound!));
    expect((await restore()).code).toBe(3);
    await boothkeep("begin", "loose");
    await boothkeep("merge", "loose", "copy");
    expect((await boothkeep("verify", "book", "--heal-from", "loose")).code).toBe(0);
    unlinkSync(join(cwd, "book/logbook.json"));
    expect((await restore()).code).toBe(3);
    expect((await boothkeep("verify", "book", "--heal")).code).toBe(0);
    expect((await restore()).code).toBe(0);
  });

  it("a broken signature beside a good one costs nothing; an unsigned withdrawal does not count", async () => {
    const key = keyPairFromSeed(new Uint8Array(32).fill(7));
    writeFileSync(join(cwd, "key.pem"), key.privateKeyPem);
    writeFileSync(join(cwd, "public.pem"), key.publicKeyPem);
    await boothkeep(
      "policy",
      "book",
      "--by",
      "Head office",
      "--need-signature",
      "--trust",
      "North=public.pem",
    );
    await keep(-1, "as-left", "--key", "key.pem");
    const id = await keep(-2, "as-left", "--key", "key.pem");
    const [signature] = items()[0]!.signatures;
    const broken = { ...signature!, record: id };
    keepRecordFile(book().store, broken, [canonicalText(broken)]);
    expect((await boothkeep("withdraw", "book", id, "--reason", "Roll back.", "--by", "Somebody")).code).toBe(
      0,
    );
    const done = await restore("--json");
    expect([done.code, (JSON.parse(done.out) as { entryId: string }).entryId]).toEqual([0, id]);
    expect(words((await boothkeep("show", "book", id)).out)).toContain("A WITHDRAWAL THAT DOES NOT COUNT");
    const stolen = await boothkeep(
      "policy",
      "book",
      "--by",
      "Head office",
      "--need-signature",
      "--trust",
      "North=public.pem",
      "--stolen",
      "North",
    );
    expect(words(stolen.out)).toContain("stolen");
    rmSync(join(cwd, "load.json"));
    expect((await restore()).code).toBe(3);
  });

  it("a named pipe in a screen's folder does not hang", async () => {
    await keep(-1, "as-left");
    const digest = "0".repeat(16);
    execFileSync("mkfifo", [
      join(cwd, "book/entries/lantern-mill/screen-1", `${"a".repeat(64)}.${digest}.gz`),
    ]);
    execFileSync("ln", [
      "-s",
      "/dev/zero",
      join(cwd, "book/entries/lantern-mill/screen-1", `${"b".repeat(64)}.${digest}.gz`),
    ]);
    expect((await boothkeep("history", "book")).code).toBe(3);
  });

  it("another model since", async () => {
    await keep(-1, "as-left");
    const other = JSON.parse(readFileSync(four, "utf8")) as Configuration;
    const swapped = { ...other, screen: { ...other.screen, siteId: "lantern-mill", screenId: "screen-1" } };
    writeFileSync(join(cwd, "swapped.json"), JSON.stringify(swapped));
    expect(swapped.unit.profileId).not.toBe(document.unit.profileId);
    await boothkeep(
      "record",
      "book",
      "swapped.json",
      "--reason",
      "after-swap",
      "--by",
      "Night team",
      "--profiles",
      join(samples, "profiles"),
    );
    const asked = await restore();
    expect(asked.code).toBe(1);
    expect(words(asked.out)).toContain(swapped.unit.profileId);
    expect((await restore("--unit", document.unit.profileId)).code).toBe(0);
  });

  it("a logbook is enough: carried away on a stick, restored and packed where nothing else is", async () => {
    await keep(-1, "as-left");
    const away = mkdtempSync(join(tmpdir(), "stick-"));
    cpSync(join(cwd, "book"), join(away, "book"), { recursive: true });
    const run = (...args: readonly string[]) => runCommand(args, { cwd: away });
    expect((await run("restore", "book", ...SCREEN, "--out", "load.json")).code).toBe(0);
    expect((await run("pack", "book", ...SCREEN, "--out", "p.zip")).code).toBe(0);
    expect((await run("begin", "from-pack")).code).toBe(0);
    expect((await run("merge", "from-pack", "p.zip")).code).toBe(0);
    expect((await run("restore", "from-pack", ...SCREEN, "--out", "again.json")).code).toBe(0);
    rmSync(away, { recursive: true });
  });
});
