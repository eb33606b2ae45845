import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { FleetVisit } from "../../samples/generate/fleet.ts";

/** General-purpose programs that keep the same files in the same run, where they are installed. */
export interface OthersResult {
  readonly zip?: { readonly bytes: number };
  readonly versionedTree?: {
    readonly asCommittedBytes: number;
    readonly packedBytes: number;
    readonly packingSeconds: number;
    readonly checkMs: number;
  };
  readonly deduplicatedBackup?: { readonly bytes: number };
}

/** Writes every visit of every screen as a file of its own and as the next state of one tree, and lets others keep them. */
export function measureOthers(folder: string, visits: readonly FleetVisit[]): OthersResult {
  const [files, tree, repository] = ["files", "tree", "repository"].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ];
  for (const path of [files, tree]) mkdirSync(path);
  const git = (...args: string[]) =>
    run("git", ["-C", tree, "-c", "user.name=bench", "-c", "user.email=bench@invalid", ...args]);
  const restic = (...args: string[]) =>
    run("restic", ["-r", repository, ...args], {
      RESTIC_PASSWORD: "bench",
      RESTIC_CACHE_DIR: join(folder, "cache"),
    });
  const [hasGit, hasRestic, hasZip] = [has("git", "--version"), has("restic", "version"), has("zip", "-v")];
  if (hasGit) git("init", "-q");
  if (hasRestic) restic("init");
  const rounds = Math.max(...visits.map((visit) => visit.visit)) + 1;
  for (let round = 0; round < rounds; round += 1) {
    for (const { siteId, screenId, visit, configuration } of visits) {
      if (visit !== round) continue;
      const text = `${JSON.stringify(configuration, null, 1)}\n`;
      writeFileSync(join(files, `${siteId}-${screenId}-${visit}.json`), text);
      writeFileSync(join(tree, `${siteId}-${screenId}.json`), text);
    }
    if (hasGit) {
      git("add", "-A");
      git("commit", "-q", "-m", `visit ${round}`);
    }
    if (hasRestic) restic("backup", "--quiet", "--exclude", ".git", tree);
  }
  return {
    ...(hasZip ? { zip: { bytes: zipBytes(folder, files) } } : {}),
    ...(hasGit ? { versionedTree: treeFigures(tree, git) } : {}),
    ...(hasRestic ? { deduplicatedBackup: { bytes: bytesIn(repository) } } : {}),
  };
}

function treeFigures(
  tree: string,
  git: (...args: string[]) => void,
): NonNullable<OthersResult["versionedTree"]> {
  const asCommittedBytes = bytesIn(join(tree, ".git"));
  const packingSeconds = seconds(() => git("gc", "-q", "--aggressive", "--prune=now"));
  const checkMs = Math.min(...[1, 2, 3].map(() => seconds(() => git("fsck", "--full")) * 1000));
  return { asCommittedBytes, packedBytes: bytesIn(join(tree, ".git")), packingSeconds, checkMs };
}

function zipBytes(folder: string, files: string): number {
  run("zip", ["-q", "-r", "-9", join(folder, "all.zip"), files]);
  return bytesIn(join(folder, "all.zip"));
}

/** Sum of the sizes of all files, without the blocks that they take. */
export function bytesIn(path: string): number {
  const { stdout } = spawnSync("find", [path, "-type", "f", "-printf", "%s\n"], {
    encoding: "utf8",
    maxBuffer: 2 ** 28,
  });
  return stdout.split("\n").reduce((sum, line) => sum + Number(line), 0);
}

/** What the files and folders take on this disk. */
export function diskBytesOf(path: string): number {
  return Number(spawnSync("du", ["-s", "--block-size=1", path], { encoding: "utf8" }).stdout.split("\t")[0]);
}

export function seconds(work: () => void): number {
  const start = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - start) / 1e9;
}

function run(command: string, args: readonly string[], env: Readonly<Record<string, string>> = {}): void {
  const done = spawnSync(command, args, {
    encoding: "utf8",
    env: { ...process.env, ...env },
    maxBuffer: 2 ** 28,
  });
  if (done.status !== 0) throw new Error(`${command} ${args.join(" ")}: ${done.stderr}`);
}

function has(command: string, flag: string): boolean {
  return spawnSync(command, [flag]).status === 0;
}
