import { quotedShort } from "../../../words/index.ts";
import type { Item } from "../rows.ts";
import type { UnknownKey } from "./draft.ts";
import { checkShown, keysOf, mayGrow } from "./row-keys.ts";
import { type Assignment, applyAssignments, assignmentsOf, noteReferences } from "./row-values.ts";
import type { TableRow } from "./table-row.ts";
import type { Taking } from "./taking.ts";

/** What became of a row: how many cells changed something, and whether the row came or went. */
export interface RowOutcome {
  readonly cells: number;
  readonly row: "kept" | "added" | "taken-out";
}

const NOTHING: RowOutcome = { cells: 0, row: "kept" };

/** Takes one row into the draft; what is wrong with it is told, and then nothing of it is taken. */
export function takeRow(row: TableRow, taking: Taking): RowOutcome {
  const { table } = row;
  const keys = keysOf(row, taking);
  if (keys === undefined) return NOTHING;
  const found = taking.draft.find(table.layout.list, keys);
  const existing = "item" in found ? found.item : undefined;
  if (existing === undefined && !mayGrow(row, keys, found as UnknownKey, taking)) return NOTHING;
  if (existing !== undefined) checkShown(row, keys, taking);
  const assignments = assignmentsOf(row, existing ?? {}, taking.problems);
  if (assignments === undefined) return NOTHING;
  const removal = assignments.find(
    ({ column, reading }) => reading.kind === "none" && column.member === table.layout.growsBy,
  );
  if (removal !== undefined) return takeOut({ row, keys, existing, assignments, removal }, taking);
  if (assignments.length === 0) {
    if (existing === undefined && table.layout.growsBy !== undefined) {
      taking.problems.add(
        row.place,
        `The row names something new, ${quotedShort(keys.at(-1)!)}, but gives no value.`,
        "Fill the row, or take it out.",
      );
    }
    return NOTHING;
  }
  const item = taking.draft.make(table.layout.list, keys);
  taking.draft.markRow(item, { place: row.place, list: table.layout.list });
  applyAssignments(item, assignments, taking);
  noteReferences(item, table.layout.list, assignments, taking.references);
  return { cells: assignments.length, row: existing === undefined ? "added" : "kept" };
}

interface Removal {
  readonly row: TableRow;
  readonly keys: readonly string[];
  readonly existing: Item | undefined;
  readonly assignments: readonly Assignment[];
  readonly removal: Assignment;
}

function takeOut(
  { row, keys, existing, assignments, removal }: Removal,
  { draft, problems }: Taking,
): RowOutcome {
  const other = assignments.find((assignment) => assignment !== removal);
  if (existing === undefined) {
    problems.add(
      removal.place,
      `There is no ${quotedShort(keys.at(-1)!)} to take out.`,
      "Take the row out, or check its keys.",
    );
  } else if (other !== undefined) {
    problems.add(
      other.place,
      `The row takes ${quotedShort(keys.at(-1)!)} out ('none' in '${removal.place.heading}') and changes it at once.`,
      "Do one of the two.",
    );
  } else {
    draft.takeOut(row.table.layout.list, keys, existing);
    return { cells: 1, row: "taken-out" };
  }
  return NOTHING;
}
