/** Runs in a worker thread: computes one EQ fit after the other. */
import { parentPort } from "node:worker_threads";
import { type EqTask, fitEqualizer } from "../../src/migrate/index.ts";

parentPort?.on("message", ([key, task]: readonly [string, EqTask]) => {
  parentPort?.postMessage([key, fitEqualizer(task)]);
});
