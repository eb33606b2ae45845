import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { FLEET_PROFILE, makeFleet } from "../../samples/generate/fleet.ts";
import {
  createLogbook,
  type FileStore,
  folderStore,
  type KeptDocument,
  record,
} from "../../src/logbook/entries/index.ts";

/*
 * Audit, drift and derivation over whole logbooks, through the built command line (worker threads included), each run a
 * process of its own so that its memory can be told. `npm run bench -- fleet` does 100 and 1,000 screens; with
 * FLEET_SCREENS=100,1000,10000 whatever is named. FLEET_FOLDER keeps the logbooks for the next run.
 */

const VISITS = 10;
const SIZES = (process.env.FLEET_SCREENS ?? "100,1000").split(",").map(Number);
const COMMAND = join(import.meta.dirname, "..", "..", "dist", "cli", "main.js");
const STANDARD = join(import.meta.dirname, "..", "..", "samples", "standards", "house-71-1.0.0.json");

interface Measured {
  readonly seconds: number;
  /** Of all its threads: what a machine that does something else besides does not change. */
  readonly cpuSeconds: number;
  /** Largest resident set of the process. */
  readonly maxMiB: number;
}

export async function run(): Promise<unknown> {
  if (!existsSync(COMMAND)) throw new Error("Build first: npm run build");
  const folder = process.env.FLEET_FOLDER ?? mkdtempSync(join(tmpdir(), "boothkeep-fleet-"));
  const results: unknown[] = [];
  for (const screens of SIZES) {
    const place = join(folder, String(screens));
    const recordMs = makeLogbook(place, screens);
    results.push({
      screens,
      visits: VISITS,
      ...(recordMs !== undefined && { recordMs }),
      ...measureAll(place),
    });
    if (process.env.FLEET_FOLDER === undefined) rmSync(place, { recursive: true });
  }
  return results;
}

/** @returns milliseconds for each record; undefined where the logbook was there */
function makeLogbook(place: string, screens: number): number | undefined {
  if (existsSync(join(place, "done"))) return undefined;
  rmSync(place, { recursive: true, force: true });
  mkdirSync(join(place, "profiles"), { recursive: true });
  mkdirSync(join(place, "logbook"));
  writeFileSync(join(place, "profiles", `${FLEET_PROFILE.id}.json`), JSON.stringify(FLEET_PROFILE));
  const logbook = createLogbook(withoutFlushing(folderStore(join(place, "logbook"))), {
    id: "018f3f2e-0000-7000-8000-000000000009",
    startedAt: "2021-01-01T00:00:00Z",
  });
  const start = performance.now();
  for (const { visit, takenAt, configuration } of makeFleet({ screens, visits: VISITS, seed: 8 })) {
    record(logbook, {
      configuration: configuration as unknown as KeptDocument,
      reason: visit % 3 === 0 ? "as-left" : "routine",
      recordedAt: takenAt,
      recordedBy: "Service team",
    });
  }
  writeFileSync(join(place, "done"), "");
  return Number(((performance.now() - start) / screens / VISITS).toFixed(2));
}

/** A store that leaves writing to the system: a logbook that can be made again need not survive a loss of power. */
function withoutFlushing(store: FileStore): FileStore {
  return { ...store, sync: () => {}, syncFolder: () => {} };
}

function measureAll(place: string): Readonly<Record<string, Measured>> {
  const out = mkdtempSync(join(tmpdir(), "boothkeep-fleet-out-"));
  const file = (name: string) => join(out, name);
  try {
    return {
      audit: measured(place, [
        "audit",
        "logbook",
        "--standard",
        STANDARD,
        "--out",
        file("first.json"),
        "--csv",
        file("a.csv"),
        "--html",
        file("a.html"),
      ]),
      auditAgain: measured(place, [
        "audit",
        "logbook",
        "--standard",
        STANDARD,
        "--earlier",
        file("first.json"),
        "--out",
        file("second.json"),
      ]),
      drift: measured(place, ["drift", STANDARD, "logbook", "--json"]),
      derive: measured(place, ["standard", "derive", "logbook", "--out", file("derived.json"), "--json"]),
    };
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
}

/** Runs a command in a process of its own, which says at its end how much memory it needed at most. */
function measured(cwd: string, args: readonly string[]): Measured {
  const said = join(cwd, "memory");
  const program = `
    process.on("exit", () => {
      if (!require("worker_threads").isMainThread) return;
      require("fs").writeFileSync(${JSON.stringify(said)}, JSON.stringify(process.resourceUsage()));
    });`;
  const preload = join(cwd, "preload.cjs");
  writeFileSync(preload, program);
  const start = performance.now();
  try {
    execFileSync(process.execPath, ["--require", preload, COMMAND, ...args], {
      cwd,
      stdio: ["ignore", "ignore", "pipe"],
      maxBuffer: 1 << 28,
    });
  } catch (error) {
    // Exit code 1 says that something was found, which is what a fleet with drift is for.
    if ((error as { status?: number }).status !== 1) throw error;
  }
  const seconds = (performance.now() - start) / 1000;
  const used = JSON.parse(readFileSync(said, "utf8")) as Record<
    "maxRSS" | "userCPUTime" | "systemCPUTime",
    number
  >;
  return {
    seconds: Number(seconds.toFixed(2)),
    cpuSeconds: Number(((used.userCPUTime + used.systemCPUTime) / 1e6).toFixed(2)),
    maxMiB: Math.round(used.maxRSS / 1024),
  };
}
