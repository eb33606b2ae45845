import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { EqFit, EqTask } from "../../src/migrate/index.ts";

/** Fewer tasks than this are done sooner than workers are started. */
const WORTH_WORKERS = 8;

/**
 * Where the worker's code lies in the built package, whatever chunk this file ends up in. Run from the sources there is
 * none, and everything is computed here.
 */
const WORKER_FILES = ["./eq-worker.js", "../cli/migrate/eq-worker.js"];

export interface FitProgress {
  readonly at: (done: number) => void;
}

/**
 * Computes EQ fits, spread over the processor's cores; equal input gives equal fits however they are spread.
 *
 * @returns the fits by the keys of their tasks
 */
export async function fitAll(
  tasks: ReadonlyMap<string, EqTask>,
  progress: FitProgress,
): Promise<ReadonlyMap<string, EqFit>> {
  const file = WORKER_FILES.map((name) => new URL(name, import.meta.url)).find((url) => existsSync(url));
  const workers = Math.min(availableParallelism(), Math.ceil(tasks.size / WORTH_WORKERS));
  if (file === undefined || workers < 2) return fitHere(tasks, progress);
  return fitInWorkers([...tasks], { file, workers, progress });
}

async function fitHere(
  tasks: ReadonlyMap<string, EqTask>,
  progress: FitProgress,
): Promise<ReadonlyMap<string, EqFit>> {
  const { fitEqualizer } = await import("../../src/migrate/index.ts");
  const fits = new Map<string, EqFit>();
  for (const [key, task] of tasks) {
    fits.set(key, fitEqualizer(task));
    progress.at(fits.size);
  }
  return fits;
}

interface Pool {
  readonly file: URL;
  readonly workers: number;
  readonly progress: FitProgress;
}

/** Each worker gets the next task when it is done with one. */
function fitInWorkers(
  tasks: readonly (readonly [string, EqTask])[],
  { file, workers, progress }: Pool,
): Promise<ReadonlyMap<string, EqFit>> {
  return new Promise((done, failed) => {
    const fits = new Map<string, EqFit>();
    const pool = Array.from({ length: workers }, () => new Worker(file));
    let next = 0;
    const end = (): void => {
      for (const worker of pool) void worker.terminate();
    };
    for (const worker of pool) {
      const give = (): void => {
        const task = tasks[next];
        next += 1;
        if (task !== undefined) worker.postMessage(task);
      };
      worker.on("message", ([key, fit]: readonly [string, EqFit]) => {
        fits.set(key, fit);
        progress.at(fits.size);
        if (fits.size < tasks.length) return give();
        end();
        done(fits);
      });
      worker.on("error", (error) => {
        end();
        failed(error);
      });
      give();
    }
  });
}
