import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/**
 * Whole processes of the built command line (`npm run build` first) against `node -e 0`, in turn, so that a busy moment
 * hits all of them. CPU time (user and system) as bash measures it, and wall time; medians.
 */
const ROUNDS = 15;
const root = join(import.meta.dirname, "..", "..");
const main = join(root, "dist", "cli", "main.js");
const screens = join(root, "samples", "screens", "lantern-mill");
const [first, second] = ["screen-1.json", "screen-4.json"].map((name) => join(screens, name)) as [
  string,
  string,
];

interface Sample {
  readonly cpuMs: number;
  readonly wallMs: number;
}

function timed(args: readonly string[]): Sample {
  const script = `TIMEFORMAT='%U %S'; time "$@" >/dev/null 2>&1`;
  const start = performance.now();
  const { stderr } = spawnSync("bash", ["-c", script, "bash", process.execPath, ...args], {
    encoding: "utf8",
    env: { ...process.env, LC_ALL: "C" },
  });
  const wallMs = performance.now() - start;
  const seconds = stderr.trim().split(/\s+/).map(Number);
  if (seconds.length !== 2 || seconds.some(Number.isNaN)) throw new Error(`bash printed: ${stderr}`);
  return { cpuMs: 1000 * (seconds[0]! + seconds[1]!), wallMs };
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

export async function run(): Promise<unknown> {
  if (!existsSync(main)) throw new Error("Run 'npm run build' first.");
  const folder = mkdtempSync(join(tmpdir(), "start-up-"));
  const kept = join(folder, "kept");
  const book = join(folder, "book");
  const recordInto = (logbook: string) => [
    main,
    "record",
    logbook,
    first,
    "--reason",
    "as-left",
    "--by",
    "Bench",
  ];
  spawnSync(process.execPath, [main, "begin", kept]);
  for (let entry = 0; entry < 3; entry += 1) spawnSync(process.execPath, recordInto(kept));
  const commands: Readonly<Record<string, readonly string[]>> = {
    "node -e 0": ["-e", "0"],
    "--help": [main, "--help"],
    "rules (a listing)": [main, "rules"],
    "history LOGBOOK (3 entries)": [main, "history", kept],
    "validate, no such file": [main, "validate", join(folder, "missing.json")],
    "validate FILE": [main, "validate", first],
    "compare A A": [main, "compare", first, first],
    "compare A B": [main, "compare", first, second],
    "record LOGBOOK FILE": recordInto(book),
  };
  const samples = new Map<string, Sample[]>(Object.keys(commands).map((name) => [name, []]));
  try {
    for (let round = 0; round < ROUNDS; round += 1) {
      for (const [name, args] of Object.entries(commands)) {
        rmSync(book, { recursive: true, force: true });
        cpSync(kept, book, { recursive: true });
        samples.get(name)!.push(timed(args));
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  const bare = samples.get("node -e 0")!;
  const bareCpuMs = median(bare.map(({ cpuMs }) => cpuMs));
  const bareWallMs = median(bare.map(({ wallMs }) => wallMs));
  const rows = [...samples].map(([command, list]) => {
    const cpuMs = median(list.map((sample) => sample.cpuMs));
    const wallMs = median(list.map((sample) => sample.wallMs));
    const round = (value: number, steps: number) => Math.round(value * steps) / steps;
    return {
      command,
      cpuMs: round(cpuMs, 1),
      timesBareCpu: round(cpuMs / bareCpuMs, 100),
      wallMs: round(wallMs, 1),
      timesBareWall: round(wallMs / bareWallMs, 100),
    };
  });
  return { rounds: ROUNDS, commands: rows };
}
