import type { EqFit } from "../../../migrate/plan/index.ts";

/** How a screen came out whose plan and configuration are written. */
export type WrittenState = "planned" | "differs";

/** That a screen is done: made from which input, and what came of it. */
export interface ScreenRecord {
  /** "lantern-mill.screen-1" */
  readonly name: string;
  readonly siteId: string;
  readonly screenId: string;
  readonly fromProfileId: string;
  /** SHA-256 of the file's bytes. */
  readonly fileSha256: string;
  /** Questions that its plan asks: only the answers to them have a part in it. */
  readonly questionIds: readonly string[];
  /** SHA-256 over everything that the plan depends on. */
  readonly inputSha256: string;
  readonly state: WrittenState;
  readonly words: string;
}

/** Which screen, and what its plan depends on. */
export type ScreenInput = Omit<ScreenRecord, "state" | "words"> & {
  /** The file that it was read from. */
  readonly file: string;
};

/** What earlier runs have done, and where this one records what is done, so that it can be taken up again. */
export interface MigrationRecords {
  readonly records: readonly ScreenRecord[];
  readonly recordScreen: (record: ScreenRecord) => void;
  /** Fits by their keys, of runs by this version of boothkeep. */
  readonly fits: ReadonlyMap<string, EqFit>;
  readonly recordFit: (key: string, fit: EqFit) => void;
}
