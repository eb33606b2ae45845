/** Runs in a worker thread: audits the screens whose folders it is sent, one message with the row for each. */
import { parentPort, workerData } from "node:worker_threads";
import { type AuditGround, auditLogbook, screensToAudit } from "../../src/jobs/index.ts";
import { folderStore, openLogbook } from "../../src/logbook/index.ts";

interface Work {
  readonly path: string;
  readonly logbookName: string;
  readonly ground: AuditGround;
}

const { path, logbookName, ground } = workerData as Work;
const logbook = openLogbook(folderStore(path));
const screens = new Map(screensToAudit(logbook, ground).map((screen) => [screen.folder, screen]));

parentPort?.on("message", (folders: readonly string[]) => {
  const wanted = folders.flatMap((folder) => screens.get(folder) ?? []);
  parentPort?.postMessage([...auditLogbook(logbook, wanted, { ...ground, logbookName })]);
});
