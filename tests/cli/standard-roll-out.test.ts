import { spawn } from "node:child_process";
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
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { MIXED_FLEET_PROFILES, makeMixedFleet } from "../../samples/generate/mixed-fleet.ts";
import { createLogbook, folderStore, history, openLogbook, record } from "../../src/logbook/entries/index.ts";
import { keyPairFromSeed } from "../../src/logbook/signing/index.ts";
import type { Configuration, Proposal, StandardDecisions } from "../../src/model/index.ts";
import { validateConfiguration } from "../../src/rules/index.ts";
import { expectAlignmentUntouched } from "../fleet/standard/fit-support.ts";
import { runCommand } from "./run-command.ts";

/*
 * A house standard rolled out over five screens with three models of unit, from the first version to the second: proposed,
 * decided in one file, loaded (here: the file counts as what the unit holds), read back, confirmed.
 */

const root = join(import.meta.dirname, "..", "..");
const MAIN = join(root, "cli", "main.ts");
const TSX = pathToFileURL(createRequire(import.meta.url).resolve("tsx")).href;
const SCREENS = 5;

const cwd = mkdtempSync(join(tmpdir(), "boothkeep-roll-out-"));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const run = (...args: string[]) => runCommand(args, { cwd });
const read = <Document>(file: string) => JSON.parse(readFileSync(join(cwd, file), "utf8")) as Document;
const write = (file: string, value: unknown) => writeFileSync(join(cwd, file), JSON.stringify(value));
const book = () => openLogbook(folderStore(join(cwd, "logbook")));

function decisions(toVersion: string, answers: StandardDecisions["answers"]): StandardDecisions {
  return {
    kind: "boothkeep.standard-decisions",
    schemaVersion: "1.0.0",
    standardId: "house-51",
    toVersion,
    answers,
  };
}

function propose(version: string, out: string, ...more: string[]) {
  return run("standard", "propose", `house-51-${version}.json`, "logbook", "--out", out, ...more);
}

/** Names of the finished files of a folder. */
function namesIn(folder: string): readonly string[] {
  if (!existsSync(join(cwd, folder))) return [];
  const names = readdirSync(join(cwd, folder), { recursive: true, encoding: "utf8" });
  return names.filter((name) => /(^|[/\\])[^~/\\]+\.[a-z]+$/.test(name)).sort();
}

/** Every finished file of a folder with its bytes. */
function filesIn(folder: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    namesIn(folder).map((name) => [name, readFileSync(join(cwd, folder, name), "utf8")]),
  );
}

function configurationsIn(folder: string): readonly string[] {
  return namesIn(folder).filter((name) => name.endsWith(".configuration.json"));
}

async function confirmAll(version: string, folder: string): Promise<void> {
  for (const name of configurationsIn(folder)) {
    const proposal = `${folder}/${name.replace(".configuration.", ".proposal.")}`;
    const { code, out } = await run(
      "standard",
      "confirm",
      "logbook",
      proposal,
      `${folder}/${name}`,
      "--standard",
      `house-51-${version}.json`,
      "--by",
      "Service team",
      "--key",
      "key.pem",
    );
    expect(out).toContain(`signed: follows house-51 ${version}.`);
    expect(code).toBe(0);
  }
}

beforeAll(() => {
  mkdirSync(join(cwd, "profiles"));
  for (const profile of MIXED_FLEET_PROFILES) write(`profiles/${profile.id}.json`, profile);
  for (const version of ["1.0.0", "2.0.0"]) {
    cpSync(
      join(root, "samples", "standards", `house-51-${version}.json`),
      join(cwd, `house-51-${version}.json`),
    );
  }
  writeFileSync(join(cwd, "key.pem"), keyPairFromSeed(new Uint8Array(32).fill(5)).privateKeyPem);
  const logbook = createLogbook(folderStore(join(cwd, "logbook")), {
    id: "018f3f2e-0000-7000-8000-000000000051",
    startedAt: "2026-01-05T08:00:00Z",
  });
  for (const configuration of makeMixedFleet({ screens: SCREENS, seed: 51 })) {
    record(logbook, {
      configuration: configuration as never,
      reason: "as-left",
      recordedAt: "2026-01-20T22:00:00Z",
      recordedBy: "Alignment team",
    });
  }
});

describe("a house standard, rolled out", () => {
  let first = "";
  let second = "";

  it("first version: what nobody settled before is asked, and one answer with a star serves all screens", async () => {
    const asked = await propose("1.0.0", "first");
    expect(asked.code).toBe(4);
    write(
      "first.decisions.json",
      decisions("1.0.0", [
        { place: "*/*/*", choose: "standard" },
        { place: "operation/faderMark", choose: "standard" },
        { place: "operation/paging/programDuckDb", choose: "standard" },
      ]),
    );
    const { code, out } = await propose("1.0.0", "first", "--decisions", "first.decisions.json", "--json");
    expect(code).toBe(0);
    const { folder, proposals } = JSON.parse(out) as { folder: string; proposals: readonly Proposal[] };
    first = folder;
    expect(new Set(proposals.map(({ screen }) => screen.profileId)).size).toBe(3);
    expect(proposals.every(({ outcome }) => outcome === "proposed")).toBe(true);
  }, 120_000);

  it("counts a screen as following when it was read back, and signs that", async () => {
    await confirmAll("1.0.0", first);
    const applied = history(book()).items.filter(({ entry }) => entry.reason === "standard-applied");
    expect(applied).toHaveLength(SCREENS);
    expect(applied.every(({ signatures }) => signatures.length === 1)).toBe(true);
    const drift = await run("drift", "house-51-1.0.0.json", "logbook", "--json");
    expect(JSON.parse(drift.out)).toMatchObject({ screens: SCREENS, following: SCREENS });
  }, 120_000);

  it("second version: local changes stay, conflicts come with both sides", async () => {
    const screen = read<Configuration>(`${first}/house-001/screen-1.configuration.json`);
    const own = {
      ...screen,
      presets: screen.presets.map((preset) => {
        if (preset.id === "trailers-51") return { ...preset, levelDb: -6 };
        return preset.id === "feature-51" ? { ...preset, faderMark: 40 } : preset;
      }),
    };
    record(book(), {
      configuration: own as never,
      reason: "as-left",
      recordedAt: "2026-06-20T22:00:00Z",
      recordedBy: "Alignment team",
    });
    const { code, out } = await propose("2.0.0", "second", "--json");
    expect(code).toBe(4);
    const { folder, proposals } = JSON.parse(out) as { folder: string; proposals: readonly Proposal[] };
    const steps = (screenId: string, place: string) =>
      proposals.find((item) => item.screen.screenId === screenId)!.steps.find((step) => step.place === place);
    const trailers = "presets/trailers-51/levelDb";
    expect(steps("screen-1", trailers)).toMatchObject({ outcome: "asks", screen: -6, standard: -4 });
    expect(steps("screen-1", "presets/feature-51/faderMark")).toMatchObject({ outcome: "kept", screen: 40 });
    for (const other of ["screen-2", "screen-3", "screen-4", "screen-5"]) {
      expect(steps(other, trailers)).toMatchObject({ outcome: "taken", screen: -3.5, result: -4 });
    }
    expect(proposals.every(({ followed }) => followed === "1.0.0")).toBe(true);
    const toFill = read<StandardDecisions>(`${folder}/decisions.json`);
    expect(toFill.answers.find(({ place }) => place === trailers)!.choices).toEqual([
      "standard: −4.0 dB",
      "screen: −6.0 dB",
    ]);
    expect(configurationsIn(folder)).toEqual([]);
  }, 120_000);

  it("goes on after the process was killed, to the very bytes of a run that was not", async () => {
    write(
      "second.decisions.json",
      decisions("2.0.0", [
        {
          place: "presets/trailers-51/levelDb",
          screens: ["house-001/*"],
          choose: "screen",
          note: "The hall is loud.",
        },
        { place: "fitting/equalizations/count", choose: "most-alike" },
        { place: "fitting/automation/triggers/network", choose: "leave-out" },
        { place: "fitting/presets/soft-51/source", choose: "as-feature-51" },
        { place: "fitting/presets/*/slot", choose: "move" },
        { place: "fitting/presets/count", choose: "as-proposed" },
        { place: "fitting/presets/*/recalls", choose: "leave-out" },
      ]),
    );
    const args = [
      "standard",
      "propose",
      "house-51-2.0.0.json",
      "logbook",
      "--decisions",
      "second.decisions.json",
      "--out",
    ];
    const child = spawn(process.execPath, ["--import", TSX, MAIN, ...args, "killed"], {
      cwd,
      stdio: "ignore",
    });
    const ended = new Promise((resolve) => child.once("exit", resolve));
    const watch = setInterval(() => {
      const isBegun = namesIn("killed").some((name) => name.endsWith(".proposal.json"));
      if (isBegun) child.kill("SIGKILL");
    }, 5);
    await ended;
    clearInterval(watch);
    expect(child.signalCode).toBe("SIGKILL");
    const before = namesIn("killed").filter((name) => name.endsWith(".proposal.json"));
    expect(before.length).toBeLessThan(SCREENS);
    const resumed = await run(...args, "killed");
    const whole = await run(...args, "whole");
    expect(resumed).toMatchObject({ code: 0, err: whole.err });
    expect(filesIn("killed")).toEqual(filesIn("whole"));
    const all = readdirSync(join(cwd, "killed"), { recursive: true, encoding: "utf8" });
    expect(all.filter((name) => name.includes("~"))).toEqual([]);
    second = `whole/${readdirSync(join(cwd, "whole"))[0]!}`;
  }, 240_000);

  it("ends in files that the units can load, with nothing measured changed, and a work list", () => {
    expect(configurationsIn(second)).toHaveLength(SCREENS);
    for (const name of configurationsIn(second)) {
      const after = read<Configuration>(`${second}/${name}`);
      const isOwn = name.endsWith("screen-1.configuration.json");
      const before = read<Configuration>(`${first}/${name}`);
      if (!isOwn) expectAlignmentUntouched(before, after);
      const profile = MIXED_FLEET_PROFILES.find(({ id }) => id === after.unit.profileId)!;
      const errors = (document: Configuration) =>
        validateConfiguration(document, { profile }).filter(({ severity }) => severity === "error").length;
      expect(errors(after)).toBeLessThanOrEqual(errors(before));
    }
    const list = readFileSync(join(cwd, second, "house-001.work-list.txt"), "utf8");
    expect(list).toContain("amplifiers off or muted, fader down");
    expect(list).toContain("other filters");
    expect(Math.max(...list.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it("is confirmed, and the next round has nothing to do", async () => {
    await confirmAll("2.0.0", second);
    const { code, out } = await propose("2.0.0", "third", "--json");
    expect(code).toBe(0);
    const { proposals } = JSON.parse(out) as { proposals: readonly Proposal[] };
    expect(proposals.map(({ outcome, followed }) => [outcome, followed])).toEqual(
      Array.from({ length: SCREENS }, () => ["follows", "2.0.0"]),
    );
  }, 120_000);
});
