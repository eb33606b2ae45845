import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  copyFileSync,
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
import { MIXED_FLEET_PROFILES, makeMixedFleet } from "../../samples/generate/mixed-fleet.ts";
import { createLogbook, folderStore, type KeptDocument, record } from "../../src/logbook/entries/index.ts";

/*
 * A house standard rolled out over a mixed fleet through the built command line, with one decisions file: a run that is
 * killed half way and goes on, against one that is not. Every round is a process of its own, so that its time and memory can
 * be told. ROLL_OUT_SCREENS=50,300 by default.
 */

const SIZES = (process.env.ROLL_OUT_SCREENS ?? "50,300").split(",").map(Number);
const root = join(import.meta.dirname, "..", "..");
const COMMAND = join(root, "dist", "cli", "main.js");
const STANDARDS = join(root, "samples", "standards");

const DECISIONS = {
  kind: "boothkeep.standard-decisions",
  schemaVersion: "1.0.0",
  standardId: "house-51",
  toVersion: "2.0.0",
  answers: [
    { place: "presets/*/*", choose: "standard" },
    { place: "operation/*", choose: "standard" },
    { place: "operation/paging/programDuckDb", choose: "standard" },
    { place: "fitting/equalizations/count", choose: "most-alike" },
    { place: "fitting/automation/triggers/network", choose: "leave-out" },
    { place: "fitting/presets/soft-51/source", choose: "as-feature-51" },
    { place: "fitting/presets/*/slot", choose: "move" },
    { place: "fitting/presets/count", choose: "as-proposed" },
    { place: "fitting/presets/*/recalls", choose: "leave-out" },
  ],
};

export async function run(): Promise<unknown> {
  if (!existsSync(COMMAND)) throw new Error("Build first: npm run build");
  const results: unknown[] = [];
  for (const screens of SIZES) {
    const folder = mkdtempSync(join(tmpdir(), "boothkeep-roll-out-"));
    prepare(folder, screens);
    const whole = measured(folder, "whole");
    const killedAt = await killedRun(folder, "killed", Math.floor(screens / 2));
    const resumed = measured(folder, "killed");
    results.push({
      screens,
      profiles: MIXED_FLEET_PROFILES.map(({ id }) => id),
      whole,
      killedAt,
      resumed,
      sameBytes: fingerprint(join(folder, "whole")) === fingerprint(join(folder, "killed")),
    });
    rmSync(folder, { recursive: true });
  }
  return results;
}

function prepare(folder: string, screens: number): void {
  mkdirSync(join(folder, "profiles"));
  mkdirSync(join(folder, "logbook"));
  for (const profile of MIXED_FLEET_PROFILES) {
    writeFileSync(join(folder, "profiles", `${profile.id}.json`), JSON.stringify(profile));
  }
  writeFileSync(join(folder, "decisions.json"), JSON.stringify(DECISIONS));
  for (const version of ["1.0.0", "2.0.0"]) {
    const name = `house-51-${version}.json`;
    copyFileSync(join(STANDARDS, name), join(folder, name));
  }
  const logbook = createLogbook(folderStore(join(folder, "logbook")), {
    id: "018f3f2e-0000-7000-8000-000000000052",
    startedAt: "2026-01-05T08:00:00Z",
  });
  for (const configuration of makeMixedFleet({ screens, seed: 52 })) {
    record(logbook, {
      configuration: configuration as unknown as KeptDocument,
      reason: "as-left",
      recordedAt: "2026-01-20T22:00:00Z",
      recordedBy: "Alignment team",
    });
  }
}

function argumentsFor(out: string): readonly string[] {
  const inputs = [
    "standard",
    "propose",
    "house-51-2.0.0.json",
    "logbook",
    "--followed",
    "house-51-1.0.0.json",
  ];
  return [COMMAND, ...inputs, "--decisions", "decisions.json", "--out", out];
}

function measured(folder: string, out: string) {
  const report = `process.on("exit", () => { const u = process.resourceUsage(); require("node:fs").writeFileSync(${JSON.stringify(join(folder, "usage.json"))}, JSON.stringify({ cpuSeconds: (u.userCPUTime + u.systemCPUTime) / 1e6, maxMiB: u.maxRSS / 1024 })); });`;
  const hook = join(folder, "usage.cjs");
  writeFileSync(hook, report);
  const { status, stdout } = spawnSync(process.execPath, ["--require", hook, ...argumentsFor(out)], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 2 ** 26,
  });
  const usage = JSON.parse(readFileSync(join(folder, "usage.json"), "utf8")) as Record<string, number>;
  const files = readdirSync(join(folder, out), { recursive: true, encoding: "utf8" });
  const count = (end: string) => files.filter((name) => name.endsWith(end)).length;
  return {
    exit: status,
    cpuSeconds: Math.round(usage.cpuSeconds! * 10) / 10,
    maxMiB: Math.round(usage.maxMiB!),
    toLoad: count(".configuration.json"),
    workLists: count(".work-list.html"),
    summary: stdout.split("\n")[1] ?? "",
  };
}

/** Kills a run, without warning, as soon as so many screens are done. */
async function killedRun(folder: string, out: string, screens: number): Promise<number> {
  const child = spawn(process.execPath, [...argumentsFor(out)], { cwd: folder, stdio: "ignore" });
  const ended = new Promise((resolve) => child.once("exit", resolve));
  const done = () =>
    existsSync(join(folder, out))
      ? readdirSync(join(folder, out), { recursive: true, encoding: "utf8" }).filter((name) =>
          name.endsWith(".proposal.json"),
        ).length
      : 0;
  const watch = setInterval(() => {
    if (done() >= screens) child.kill("SIGKILL");
  }, 20);
  await ended;
  clearInterval(watch);
  return done();
}

/** SHA-256 over names and bytes of all files. */
function fingerprint(folder: string): string {
  const hash = createHash("sha256");
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((item) => item.isFile())
    .map((item) => join(item.parentPath, item.name))
    .sort()) {
    hash.update(entry.slice(folder.length)).update(readFileSync(entry));
  }
  return hash.digest("hex");
}
