import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { join } from "node:path";
import { buildSync } from "esbuild";

/** Bundles child.ts so that a process starts in a moment; gives the path of the bundle. */
export function buildChild(folder: string): string {
  const outfile = join(folder, "child.mjs");
  buildSync({
    entryPoints: [join(import.meta.dirname, "child.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile,
    logLevel: "error",
  });
  return outfile;
}

export interface ChildTask {
  readonly folder: string;
  readonly task: "record" | "withdraw" | "bind" | "merge" | "heal";
  readonly number?: number;
  readonly count?: number;
  readonly killBefore?: number;
}

/** Runs a child to its end; `killed` says whether it ended itself. */
export function runChild(
  child: string,
  task: ChildTask,
): { readonly killed: boolean; readonly ids: readonly string[] } {
  const done = spawnSync(process.execPath, argumentsOf(child, task), { encoding: "utf8" });
  if (done.signal !== "SIGKILL" && done.status !== 0) throw new Error(done.stderr);
  return { killed: done.signal === "SIGKILL", ids: done.stdout.split("\n").filter((line) => line !== "") };
}

/** Starts a child and gives what it has recorded when it is done. */
export function startChild(
  child: string,
  task: ChildTask,
): { readonly process: ChildProcess; readonly ids: Promise<readonly string[]> } {
  const running = spawn(process.execPath, argumentsOf(child, task));
  const ids = new Promise<readonly string[]>((resolve, reject) => {
    let [out, errors] = ["", ""];
    running.stdout.on("data", (chunk: Buffer) => {
      out += chunk;
    });
    running.stderr.on("data", (chunk: Buffer) => {
      errors += chunk;
    });
    running.on("close", (code, signal) => {
      if (code === 0 || signal === "SIGKILL") resolve(out.split("\n").filter((line) => line !== ""));
      else reject(new Error(errors));
    });
  });
  return { process: running, ids };
}

function argumentsOf(
  child: string,
  { folder, task, number = 0, count = 1, killBefore = 0 }: ChildTask,
): string[] {
  return [child, folder, task, String(number), String(count), String(killBefore)];
}
