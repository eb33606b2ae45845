import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildSync } from "esbuild";
import { countLeaves, type FleetVisit, makeFleet } from "../../samples/generate/fleet.ts";
import {
  bindLogbook,
  createLogbook,
  folderStore,
  history,
  type KeptDocument,
  type Logbook,
  openLogbook,
  record,
} from "../../src/logbook/entries/index.ts";
import { watchedStore } from "../logbook/entries/support/faulty-store.ts";
import { bytesIn, diskBytesOf, measureOthers, seconds } from "./logbook-others.ts";

const FLEET = { screens: 200, visits: 10, seed: 1 } as const;
const MANY_SCREENS = 10_000;
/** Process runs of each kind, one after the other in turn. */
const ROUNDS = 15;
const NOTES = [
  undefined,
  "Half-year service, high way re-levelled.",
  undefined,
  "Surround level complaint, row 9.",
];

/**
 * Keeps a generated fleet in a logbook, open and bound, and the same files with general-purpose programs where they are
 * installed. Times of whole processes are given as ratios to `node -e 0` measured in turn with them.
 */
export async function run(): Promise<unknown> {
  const root = mkdtempSync(join(tmpdir(), "logbook-bench-"));
  try {
    const visits = [...makeFleet(FLEET)];
    const folder = join(root, "open");
    const recordedMs = recordAll(newLogbook(folder), visits);
    const open = { bytes: bytesIn(folder), diskBytes: diskBytesOf(folder) };
    const bound = join(root, "bound");
    cpSync(folder, bound, { recursive: true });
    const bindSeconds = seconds(() => bindLogbook(openLogbook(folderStore(bound))));
    const child = buildChild(root);
    return {
      fleet: {
        ...FLEET,
        valuesEach: countLeaves(visits[0]!.configuration),
        bytesEach: JSON.stringify(visits[0]!.configuration).length,
      },
      recordingInOneProcessMs: recordedMs,
      open,
      bound: { bytes: bytesIn(bound), diskBytes: diskBytesOf(bound), seconds: bindSeconds },
      processes: measureProcesses(child, folder, visits),
      verifying: measureVerifying(child, folder, bound),
      oneOfManyScreens: measureOneOfMany(join(root, "many"), child),
      others: measureOthers(root, visits),
    };
  } finally {
    rmSync(root, { recursive: true });
  }
}

function newLogbook(folder: string): Logbook {
  return createLogbook(folderStore(folder), {
    id: "7c9e6679-7425-40de-944b-e07fc1f90ae7",
    startedAt: "2021-01-01T00:00:00Z",
  });
}

/** Records all visits, as they come screen by screen; gives milliseconds each. */
function recordAll(logbook: Logbook, visits: readonly FleetVisit[]): number {
  const total = seconds(() => {
    for (const [index, { visit, takenAt, configuration }] of visits.entries()) {
      const notes = NOTES[index % NOTES.length];
      record(logbook, {
        configuration: configuration as unknown as KeptDocument,
        reason: visit === 0 ? "as-left" : "routine",
        recordedAt: takenAt,
        recordedBy: "Service team",
        ...(notes === undefined ? {} : { notes }),
      });
    }
  });
  return (total * 1000) / visits.length;
}

function buildChild(root: string): string {
  const outfile = join(root, "child.mjs");
  buildSync({
    entryPoints: [join(import.meta.dirname, "logbook-child.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile,
    logLevel: "error",
  });
  return outfile;
}

/** Wall-clock times of whole processes, the least and the median of each kind, and their ratio to a bare start. */
function measureProcesses(child: string, folder: string, visits: readonly FleetVisit[]) {
  const last = visits.at(-1)!;
  const screen = [last.siteId, last.screenId];
  const document = join(folder, "..", "visit.json");
  const changed = (round: number): string[] => {
    const configuration = structuredClone(last.configuration) as unknown as { outputs: { gainDb: number }[] };
    configuration.outputs[0]!.gainDb = -round / 10;
    writeFileSync(document, JSON.stringify(configuration));
    return [child, folder, "record", document, `2026-03-02T22:${String(round).padStart(2, "0")}:00Z`];
  };
  return inTurn({
    bare: () => ["-e", "0"],
    list: () => [child, folder, "list", ...screen],
    fetch: () => [child, folder, "fetch", ...screen],
    record: changed,
  });
}

function inTurn(kinds: Readonly<Record<string, (round: number) => readonly string[]>>) {
  const times = new Map<string, number[]>();
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [kind, argsOf] of Object.entries(kinds)) {
      const args = argsOf(round);
      times.set(kind, [...(times.get(kind) ?? []), seconds(() => runNode(args)) * 1000]);
    }
  }
  const least = (kind: string) => Math.min(...times.get(kind)!);
  const median = (kind: string) => times.get(kind)!.toSorted((a, b) => a - b)[ROUNDS >> 1]!;
  return Object.fromEntries(
    Object.keys(kinds).map((kind) => [
      kind,
      {
        leastMs: least(kind),
        medianMs: median(kind),
        leastRatio: least(kind) / least("bare"),
        medianRatio: median(kind) / median("bare"),
      },
    ]),
  );
}

function runNode(args: readonly string[]): void {
  const done = spawnSync(process.execPath, args, { encoding: "utf8", maxBuffer: 2 ** 26 });
  if (done.status !== 0) throw new Error(done.stderr);
}

function measureVerifying(child: string, open: string, bound: string) {
  const least = (...args: string[]) =>
    Math.min(...[1, 2, 3].map(() => seconds(() => runNode([child, ...args])) * 1000));
  return {
    openFilesMs: least(open, "verify-files"),
    boundFilesMs: least(bound, "verify-files"),
    openContentsMs: least(open, "verify-contents"),
    boundContentsMs: least(bound, "verify-contents"),
  };
}

/** One screen listed in a logbook with very many: how many files are read, and how long a process takes. */
function measureOneOfMany(folder: string, child: string) {
  const logbook = newLogbook(folder);
  for (let index = 0; index < MANY_SCREENS; index += 1) {
    record(logbook, {
      configuration: {
        screen: { siteId: `site-${index >> 4}`, screenId: `screen-${index & 15}` },
        unit: { profileId: "small", serial: `S-${index}` },
      },
      reason: "as-left",
      recordedAt: "2026-03-02T22:00:00Z",
      recordedBy: "Service team",
    });
  }
  const read: string[] = [];
  const watched = watchedStore(logbook.store, ["list", "read"], ({ operation, path }) =>
    read.push(`${operation} ${path}`),
  );
  history({ ...logbook, store: watched }, { siteId: "site-100", screenId: "screen-5" });
  return {
    screens: MANY_SCREENS,
    operations: read,
    processes: inTurn({
      bare: () => ["-e", "0"],
      list: () => [child, folder, "list", "site-100", "screen-5"],
    }),
  };
}
