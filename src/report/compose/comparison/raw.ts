import type { Comparison, RawChange } from "../../../model/index.ts";
import { printValue } from "../../../words/index.ts";
import type { Table } from "../../document.ts";

/** Longer values are cut: whole parts of a configuration are better read in the file. */
const LONGEST = 160;

/** Every raw change by its place. */
export function rawTable({ changes, belowTolerance }: Comparison): Table {
  const quiet = new Set(belowTolerance);
  const marked = quiet.size > 0;
  return {
    kind: "table",
    caption: "Every differing value",
    columns: [
      { header: "Place" },
      { header: "Before" },
      { header: "After" },
      ...(marked ? [{ header: "Counted only" }] : []),
    ],
    rows: changes.map((change, index) => [
      change.path.join(" / "),
      printed(change, "before"),
      printed(change, "after"),
      ...(marked ? [quiet.has(index) ? "below tolerance" : ""] : []),
    ]),
  };
}

function printed(change: RawChange, side: "before" | "after"): string {
  const text = printValue(change.field, change[side]);
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}
