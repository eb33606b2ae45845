import type { AuditRow } from "../../src/fleet/audit/index.ts";
import { type AuditGround, auditLogbook } from "../../src/jobs/index.ts";
import { folderStore, logbookScreens, openLogbook } from "../../src/logbook/entries/index.ts";
import type { TaskNote } from "../workers/tasks.ts";
import type { Chunk } from "./chunks.ts";

export interface AuditSetup {
  readonly ground: AuditGround;
}

export interface AuditChunk extends Chunk {
  /** What the row of each screen rests on. */
  readonly bases: readonly string[];
}

/** Audits screens: a row for each. */
export async function auditTask({ ground }: AuditSetup, note: (note: TaskNote) => void) {
  return async ({ path, named, folders, bases }: AuditChunk): Promise<readonly AuditRow[]> => {
    const logbook = openLogbook(folderStore(path));
    const screens = [...logbookScreens(logbook, { folders })].map((screen, index) => ({
      folder: screen.folder,
      basis: bases[index]!,
      screen,
    }));
    const rows: AuditRow[] = [];
    for (const row of auditLogbook(logbook, screens, { ...ground, logbookName: named })) {
      rows.push(row);
      note({ kind: "done", name: `${row.siteId}/${row.screenId}` });
    }
    return rows;
  };
}
