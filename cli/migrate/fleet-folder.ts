import { join } from "node:path";
import type { EqFit, MigrationRecords, ScreenRecord } from "../../src/public/migrate.ts";
import { removeUnfinished } from "../files.ts";
import { openLineFile } from "./line-file.ts";

interface FitRecord {
  readonly version: string;
  readonly key: string;
  readonly fit: EqFit;
}

/** Holds only what could be computed again: whoever is done with all screens may delete it. */
export const WORK_FOLDER = "work";

/** What a run over many screens leaves in its folder besides plans and configurations, so that it can be taken up again. */
export function openFleetFolder(folder: string, version: string): MigrationRecords {
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
