import type { HistoryItem } from "../src/public/logbook.ts";
import { readBackWords } from "../src/public/report.ts";

/** Where a configuration comes from, as the sheets say it. */
export function entryOrigin({
  id,
  entry,
  item,
}: Pick<HistoryItem, "id" | "entry"> & { readonly item?: HistoryItem }): readonly (readonly [
  name: string,
  value: string,
])[] {
  return [
    ["Entry", `${entry.number}, ${entry.reason.replaceAll("-", " ")}`],
    ["Recorded", `${entry.recordedAt} by ${entry.recordedBy}`],
    ["Entry id", id],
    ...(item === undefined || item.standing.readBack.kind === "none"
      ? []
      : [["Read back", readBackWords(item.standing.readBack)] as const]),
  ];
}
