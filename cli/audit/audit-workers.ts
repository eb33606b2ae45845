import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { type AuditGround, auditLogbook, type ScreenInAudit } from "../../src/jobs/index.ts";
import type { Logbook } from "../../src/logbook/index.ts";
import type { AuditedScreen } from "../../src/model/index.ts";

/** Fewer screens than this are done sooner than workers are started. */
const WORTH_WORKERS = 40;
/** Screens in one message. */
const BATCH = 8;

/**
 * Where the worker's code lies in the built package, whatever chunk this file ends up in. Run from the sources there is
 * none, and everything is computed here.
 */
const WORKER_FILES = ["./audit-worker.js", "../cli/audit/audit-worker.js"];

export interface AuditWork {
  readonly logbook: Logbook;
  /** Absolute path of the logbook. */
  readonly path: string;
  readonly logbookName: string;
  readonly ground: AuditGround;
  readonly onRow: (row: AuditedScreen) => void;
}

/** Audits screens, spread over the processor's cores; the rows are equal however they are spread. */
export async function auditAll(screens: readonly ScreenInAudit[], work: AuditWork): Promise<void> {
  const file = WORKER_FILES.map((name) => new URL(name, import.meta.url)).find((url) => existsSync(url));
  const workers = Math.min(availableParallelism(), Math.floor(screens.length / WORTH_WORKERS));
  if (file !== undefined && workers > 1) return inWorkers(screens, work, { file, workers });
  const { logbook, logbookName, ground, onRow } = work;
  for (const row of auditLogbook(logbook, screens, { ...ground, logbookName })) onRow(row);
}

/** Each worker gets the next screens when it is done with some. */
function inWorkers(
  screens: readonly ScreenInAudit[],
  { path, logbookName, ground, onRow }: AuditWork,
  { file, workers }: { readonly file: URL; readonly workers: number },
): Promise<void> {
  return new Promise((done, failed) => {
    const workerData = { path, logbookName, ground };
    const pool = Array.from({ length: workers }, () => new Worker(file, { workerData }));
    let next = 0;
    let open = screens.length;
    const end = (): void => {
      for (const worker of pool) void worker.terminate();
    };
    for (const worker of pool) {
      const give = (): void => {
        const folders = screens.slice(next, next + BATCH).map(({ folder }) => folder);
        next += BATCH;
        if (folders.length > 0) worker.postMessage(folders);
      };
      worker.on("message", (rows: readonly AuditedScreen[]) => {
        for (const row of rows) onRow(row);
        open -= rows.length;
        if (open > 0) return give();
        end();
        done();
      });
      worker.on("error", (error) => {
        end();
        failed(error);
      });
      give();
    }
  });
}
