import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";
import { parentPort, Worker } from "node:worker_threads";

/** Work that goes over the processor's cores. Equal tasks give equal results, wherever they are done. */
export interface SpreadWork<Task, Result> {
  /** Name of the worker's code in this folder, without ending. */
  readonly worker: string;
  /** Given to each worker when it starts. */
  readonly ground?: unknown;
  /** Fewer tasks than this for each worker are done sooner without. */
  readonly worthWorkers: number;
  /** Does one task in this thread. */
  readonly here: () => Promise<(task: Task) => Result | Promise<Result>>;
  /** Called in this thread as results come, in whatever order. */
  readonly onResult: (result: Result, task: Task) => void;
}

/** Does all tasks, in worker threads where it is worth it and the built package is there. */
export async function spread<Task, Result>(
  tasks: readonly Task[],
  work: SpreadWork<Task, Result>,
): Promise<void> {
  const file = workerFile(work.worker);
  const workers = Math.min(availableParallelism(), Math.ceil(tasks.length / work.worthWorkers));
  if (file !== undefined && workers > 1) return inWorkers(tasks, work, { file, workers });
  const doTask = await work.here();
  for (const task of tasks) work.onResult(await doTask(task), task);
}

/** The worker's side: answers each task with its result. */
export function serve<Task, Result>(doTask: (task: Task) => Result | Promise<Result>): void {
  parentPort?.on("message", async (task: Task) => {
    parentPort?.postMessage(await doTask(task));
  });
}

/**
 * Where a worker's code lies in the built package, whatever chunk this file ends up in. Run from the sources there is none,
 * and everything is done in this thread.
 */
function workerFile(name: string): URL | undefined {
  return [`./${name}.js`, `../cli/migrate/${name}.js`]
    .map((path) => new URL(path, import.meta.url))
    .find((url) => existsSync(url));
}

/** Each worker gets the next task when it is done with one. */
function inWorkers<Task, Result>(
  tasks: readonly Task[],
  { ground, onResult }: SpreadWork<Task, Result>,
  { file, workers }: { readonly file: URL; readonly workers: number },
): Promise<void> {
  return new Promise((done, failed) => {
    const pool = Array.from({ length: workers }, () => new Worker(file, { workerData: ground }));
    let next = 0;
    let finished = 0;
    const end = (): void => {
      for (const worker of pool) void worker.terminate();
    };
    const fail = (error: unknown): void => {
      end();
      failed(error);
    };
    for (const worker of pool) {
      let current: Task | undefined;
      const give = (): void => {
        current = tasks[next];
        next += 1;
        if (current !== undefined) worker.postMessage(current);
      };
      worker.on("message", (result: Result) => {
        finished += 1;
        try {
          onResult(result, current as Task);
        } catch (error) {
          return fail(error);
        }
        if (finished < tasks.length) return give();
        end();
        done();
      });
      worker.on("error", fail);
      give();
    }
  });
}
