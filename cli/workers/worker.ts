/** Runs in a worker thread: does the work of one task on whatever it is sent, one answer for each. */
import { parentPort, workerData } from "node:worker_threads";
import { BoothkeepError } from "../../src/public/boothkeep.ts";
import type { FromWorker, ToWorker } from "./pool.ts";
import { TASKS } from "./tasks.ts";

const { task, setup } = workerData as { readonly task: keyof typeof TASKS; readonly setup: never };

function say(message: FromWorker): void {
  parentPort?.postMessage(message);
}

const work = TASKS[task](setup, (note) => say({ kind: "note", note }));

parentPort?.on("message", async ({ index, input }: ToWorker) => {
  try {
    say({ kind: "result", index, result: await (await work)(input as never) });
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    // An error loses its class between threads.
    const { code, message, place, next, data } = error;
    say({ kind: "failure", code, message, options: { place, next, data } });
  }
});
