import type { HistoryItem } from "../src/public/logbook.ts";

/** Where a configuration comes from, as the sheets say it. */
export function entryOrigin({
  id,
  entry,
}: Pick<HistoryItem, "id" | "entry">): readonly (readonly [name: string, value: string])[] {
  return [
    ["Entry", `${entry.number}, ${entry.reason.replaceAll("-", " ")}`],
    ["Recorded", `${entry.recordedAt} by ${entry.recordedBy}`],
    ["Entry id", id],
  ];
}
