import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { HistoryItem } from "../../../src/logbook/entries/index.ts";
import type { Configuration, Entry, UnitProfile } from "../../../src/model/index.ts";
import { plainStanding } from "../standing/support.ts";

const samples = join(import.meta.dirname, "..", "..", "..", "samples");

function read<Document>(...path: readonly string[]): Document {
  return JSON.parse(readFileSync(join(samples, ...path), "utf8")) as Document;
}

export const asLeft = read<Configuration>("screens", "lantern-mill", "screen-1.json");
export const profile = read<UnitProfile>("profiles", `${asLeft.unit.profileId}.json`);
export const otherProfile = read<UnitProfile>("profiles", "whimbrel-32.json");

/** The same type with everything open to change. */
type Draft<T> = T extends readonly (infer Item)[]
  ? Draft<Item>[]
  : T extends object
    ? { -readonly [Name in keyof T]: Draft<T[Name]> }
    : T;

export function changed<T>(document: T, change: (draft: Draft<T>) => void): T {
  const draft = structuredClone(document) as Draft<T>;
  change(draft);
  return draft as T;
}

/** An entry of a history; what is not said is as usual. */
export function historyItem(
  number: number,
  facts: Partial<HistoryItem> & { reason?: Entry["reason"] } = {},
): HistoryItem {
  const { reason = "as-left", ...rest } = facts;
  const idOf = (other: number) => String(other).padStart(2, "0").repeat(32);
  return {
    id: idOf(number),
    entry: {
      kind: "boothkeep.entry",
      schemaVersion: "1.0.0",
      siteId: "site",
      screenId: "screen-1",
      number,
      previous: number > 1 ? [idOf(number - 1)] : [],
      reason,
      recordedAt: `2026-0${number}-01T10:00:00+01:00`,
      recordedBy: "Service team",
      unit: { profileId: "model", serial: "S-1" },
      configuration: String(number).padStart(2, "0").repeat(32),
    },
    withdrawals: [],
    signatures: [],
    isLatest: false,
    standing: plainStanding(),
    ...rest,
  };
}
