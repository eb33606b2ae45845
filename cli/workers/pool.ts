import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { BoothkeepError, type ErrorCode, type ErrorOptions } from "../../src/public/boothkeep.ts";
import { TASKS, type TaskNote } from "./tasks.ts";

/** Where the worker's code lies in the built package, whatever chunk this file ends up in. */
const WORKER_FILES = ["./worker.js", "../cli/workers/worker.js"];

/** The worker's code; undefined where this runs from the sources: then everything is done on this thread. */
function builtWorker(): URL | undefined {
  return WORKER_FILES.map((name) => new URL(name, import.meta.url)).find((url) => existsSync(url));
}

export interface ToWorker {
  readonly index: number;
  readonly input: unknown;
}

export type FromWorker =
  | { readonly kind: "note"; readonly note: TaskNote }
  | { readonly kind: "result"; readonly index: number; readonly result: unknown }
  | {
      readonly kind: "failure";
      readonly code: ErrorCode;
      readonly message: string;
      readonly options: ErrorOptions;
    };

type Name = keyof typeof TASKS;
export type SetupOf<N extends Name> = Parameters<(typeof TASKS)[N]>[0];
type WorkOf<N extends Name> = Awaited<ReturnType<(typeof TASKS)[N]>>;
type InputOf<N extends Name> = Parameters<WorkOf<N>>[0];
export type ResultOf<N extends Name> = Awaited<ReturnType<WorkOf<N>>>;

export interface Spreading<N extends Name> {
  readonly task: N;
  readonly setup: SetupOf<N>;
  readonly inputs: readonly InputOf<N>[];
  /** At most so many threads besides this one are worth starting. */
  readonly worthWorkers: number;
  /** Called in this thread, in the order of the inputs whatever is done first, unless they may come as they are done. */
  readonly onResult: (result: ResultOf<N>, input: InputOf<N>) => void;
  readonly asDone?: boolean;
  readonly onNote?: (note: TaskNote) => void;
}

/**
 * Does a task on many inputs, spread over the processor's cores; the results are equal however they are spread.
 *
 * @throws BoothkeepError whatever the task throws
 */
export async function spread<N extends Name>(
  spreading: Spreading<N>,
  file: URL | undefined = builtWorker(),
): Promise<void> {
  const { task, setup, inputs, worthWorkers, onResult, onNote = () => {} } = spreading;
  const workers = Math.min(availableParallelism(), worthWorkers, inputs.length);
  if (file !== undefined && workers > 1) return inWorkers(spreading, { file, workers });
  const work = (await TASKS[task](setup as never, onNote)) as (input: InputOf<N>) => Promise<ResultOf<N>>;
  for (const input of inputs) onResult(await work(input), input);
}

/** Each worker gets the next input when it is done with one. */
function inWorkers<N extends Name>(
  { task, setup, inputs, onResult, asDone, onNote }: Spreading<N>,
  { file, workers }: { readonly file: URL; readonly workers: number },
): Promise<void> {
  return new Promise((done, failed) => {
    const pool = Array.from({ length: workers }, () => new Worker(file, { workerData: { task, setup } }));
    const early = new Map<number, ResultOf<N>>();
    let next = 0;
    let told = 0;
    const end = (): void => {
      for (const worker of pool) void worker.terminate();
    };
    const fail = (error: unknown): void => {
      end();
      failed(error);
    };
    const take = (index: number, result: ResultOf<N>): void => {
      if (asDone === true) {
        told += 1;
        onResult(result, inputs[index] as InputOf<N>);
        return;
      }
      early.set(index, result);
      for (let first = early.get(told); early.has(told); first = early.get(told)) {
        early.delete(told);
        onResult(first as ResultOf<N>, inputs[told] as InputOf<N>);
        told += 1;
      }
    };
    for (const worker of pool) {
      const give = (): void => {
        if (next < inputs.length) worker.postMessage({ index: next, input: inputs[next] } satisfies ToWorker);
        next += 1;
      };
      worker.on("message", (message: FromWorker) => {
        if (message.kind === "note") onNote?.(message.note);
        else if (message.kind === "failure") {
          fail(new BoothkeepError(message.code, message.message, message.options));
        } else {
          give();
          try {
            take(message.index, message.result as ResultOf<N>);
          } catch (error) {
            return fail(error);
          }
          if (told < inputs.length) return;
          end();
          done();
        }
      });
      worker.on("error", fail);
      give();
    }
  });
}
