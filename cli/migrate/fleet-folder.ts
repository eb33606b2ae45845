import { join } from "node:path";
import type { EqFit } from "../../src/migrate/plan/index.ts";
import { removeUnfinished } from "../files.ts";
import { openLineFile } from "./line-file.ts";

/** How a screen came out whose plan and configuration are written. */
export type WrittenState = "planned" | "differs";

/** That a screen is done: made from which input, and what came of it. */
export interface ScreenRecord {
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

interface FitRecord {
  readonly version: string;
  readonly key: string;
  readonly fit: EqFit;
}

/** What a run over many screens leaves in its folder besides plans and configurations, so that it can be taken up again. */
export interface FleetFolder {
  readonly records: readonly ScreenRecord[];
  readonly recordScreen: (record: ScreenRecord) => void;
  /** Fits of earlier runs by this version of boothkeep. */
  readonly fits: ReadonlyMap<string, EqFit>;
  readonly recordFit: (key: string, fit: EqFit) => void;
}

/** Holds only what could be computed again: whoever is done with all screens may delete it. */
export const WORK_FOLDER = "work";

export function openFleetFolder(folder: string, version: string): FleetFolder {
  removeUnfinished(folder);
  const screens = openLineFile(join(folder, WORK_FOLDER, "screens.jsonl"), isScreenRecord);
  const fits = openLineFile(join(folder, WORK_FOLDER, "equalizers.jsonl"), isFitRecord);
  return {
    records: screens.values,
    recordScreen: screens.add,
    fits: new Map(
      fits.values.filter((item) => item.version === version).map(({ key, fit }) => [key, fit] as const),
    ),
    recordFit: (key, fit) => fits.add({ version, key, fit }),
  };
}

function isScreenRecord(value: unknown): value is ScreenRecord {
  const names = ["name", "siteId", "screenId", "fromProfileId", "fileSha256", "inputSha256"];
  return hasTexts(value, names) && Array.isArray((value as Partial<ScreenRecord>).questionIds);
}

function isFitRecord(value: unknown): value is FitRecord {
  return hasTexts(value, ["version", "key"]) && Array.isArray((value as Partial<FitRecord>).fit?.filters);
}

function hasTexts(value: unknown, names: readonly string[]): boolean {
  if (typeof value !== "object" || value === null) return false;
  const members = value as Readonly<Record<string, unknown>>;
  return names.every((name) => typeof members[name] === "string");
}
