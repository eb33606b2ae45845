import { folderStore, type Logbook, openLogbook } from "../../src/public/boothkeep.ts";
import {
  type AuditedScreen,
  type AuditGround,
  auditLogbook,
  type CensusCounts,
  censusOfLogbook,
  compileStandard,
  type DriftPart,
  driftInLogbook,
  type ScreenInAudit,
  type Standard,
  type StandardClass,
} from "../../src/public/fleet.ts";
import { KnownProfiles } from "../known-profiles.ts";
import type { TaskNote } from "../workers/tasks.ts";
import { type TaskWorld, taskContext } from "./task-context.ts";

type Say = (note: TaskNote) => void;

/** Some of the screens of a logbook, to be worked on together on one thread. */
interface Part {
  /** Absolute path of the logbook. */
  readonly path: string;
  /** The logbook as the user named it. */
  readonly named: string;
}

export interface Chunk extends Part {
  /** Folders of the screens inside the logbook. */
  readonly folders: readonly string[];
}

export interface AuditChunk extends Part {
  readonly screens: readonly ScreenInAudit[];
}

const opened = (path: string): Logbook => openLogbook(folderStore(path));
const doneNote = (note: Say) => (name: string) => note({ kind: "done", name });

export interface AuditSetup {
  readonly ground: AuditGround;
}

/** Audits screens: a row for each. */
export function auditTask({ ground }: AuditSetup, note: Say) {
  return async ({ path, named, screens }: AuditChunk): Promise<readonly AuditedScreen[]> => [
    ...auditLogbook(opened(path), screens, { ...ground, logbookName: named, onDone: doneNote(note) }),
  ];
}

export interface CensusSetup {
  /** Which screens are counted. */
  readonly screens: StandardClass;
}

/** Counts what screens have: counts that can be added to those of others. */
export function censusTask({ screens }: CensusSetup, note: Say) {
  return async ({ path, folders }: Chunk): Promise<CensusCounts> =>
    censusOfLogbook(opened(path), {
      screens,
      folders,
      onDone: doneNote(note),
      onLeftOut: ({ name, words, isDamaged }) =>
        note({
          kind: isDamaged ? "damaged" : "warning",
          words: `boothkeep: ${name} is left out: ${words}`,
        }),
    });
}

export interface DriftSetup {
  readonly world: TaskWorld;
  readonly standard: Standard;
  /** What --profiles said. */
  readonly profiles: string | undefined;
}

/** Compares screens with a standard: what is found, ready to be added to what others found. */
export function driftTask({ world, standard, profiles: folder }: DriftSetup, note: Say) {
  const compiled = compileStandard(standard);
  const profiles = new KnownProfiles(folder, taskContext(world, note));
  return async ({ path, named, folders }: Chunk): Promise<DriftPart> =>
    driftInLogbook(opened(path), {
      standard: compiled,
      folders,
      profileOf: (id) => profiles.of(id, named),
      onDone: doneNote(note),
    });
}
