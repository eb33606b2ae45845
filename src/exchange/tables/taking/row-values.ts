import { type GraphicLayoutName, graphicBandIndices } from "../../../acoustics/index.ts";
import type { SheetCell } from "../../workbook/index.ts";
import { cellOf, isLeading, NONE, partOf } from "../cells.ts";
import { fieldHeading } from "../headings.ts";
import type { TableColumn } from "../layouts/index.ts";
import type { Item } from "../rows.ts";
import type { NamedElsewhere } from "./check-references.ts";
import type { Draft } from "./draft.ts";
import type { Problems, TablePlace } from "./problem.ts";
import { type CellReading, readCell } from "./read-cell.ts";
import type { TableRow } from "./table-row.ts";
import type { Taking } from "./taking.ts";

/** A cell that changes something. */
export interface Assignment {
  readonly column: TableColumn;
  readonly reading: Extract<CellReading, { kind: "value" | "none" }>;
  readonly place: TablePlace;
}

/** What the cells of a row change; undefined when one of them is wrong. */
export function assignmentsOf(
  row: TableRow,
  item: Item,
  problems: Problems,
): readonly Assignment[] | undefined {
  const values = row.table.columns.flatMap((found) =>
    found.role.kind === "value" ? [{ column: found.role.column, ...row.at(found) }] : [],
  );
  const newLayout = values.some(
    ({ column, cell }) => column.member === "graphic.layout" && isNewLayout(cell, item),
  );
  const assignments: Assignment[] = [];
  let right = true;
  for (const { column, cell, place } of values) {
    const reading = readCell(cell, {
      takes: column.takes,
      // Another arrangement of bands keeps none of the gains before.
      before: newLayout && column.band !== undefined ? undefined : cellOf(item, column),
      optional: column.optional === true || column.member === row.table.layout.growsBy,
      decimal: row.table.decimal,
    });
    if (reading.kind === "wrong") {
      problems.add(place, reading.words, reading.next);
      right = false;
    } else if (reading.kind !== "same") {
      assignments.push({ column, reading, place });
    }
  }
  return right ? assignments : undefined;
}

function isNewLayout(cell: SheetCell, item: Item): boolean {
  const before = (item.graphic as Item | undefined)?.layout;
  const said = typeof cell === "string" ? cell.trim().toLowerCase() : "";
  return said !== "" && said !== NONE && said !== before;
}

/** Carries out what a row changes. */
export function applyAssignments(item: Item, assignments: readonly Assignment[], taking: Taking): void {
  const { draft, problems } = taking;
  const gone = assignments.filter(({ column, reading }) => reading.kind === "none" && isLeading(column));
  for (const { column, place } of gone) {
    const part = partOf(column)!;
    const other = assignments.find((one) => one.reading.kind === "value" && partOf(one.column) === part);
    if (other === undefined) draft.clear(item, part, place);
    else {
      problems.add(
        other.place,
        `The row takes a part out ('none' in '${place.heading}') and gives it a value at once.`,
        "Do one of the two.",
      );
    }
  }
  for (const { column, reading, place } of assignments) {
    const part = partOf(column);
    if (gone.some((one) => partOf(one.column) === part && part !== undefined)) continue;
    if (reading.kind === "none") draft.clear(item, column.member, place);
    else if (column.band === undefined) setValue(item, column, reading.value, { draft, place });
    else setBand(item, column.band, reading.value, { draft, problems, place });
  }
}

/** Notes the names that must be there elsewhere. */
export function noteReferences(
  item: Item,
  list: string,
  assignments: readonly Assignment[],
  references: NamedElsewhere[],
): void {
  for (const { column, reading, place } of assignments) {
    if (reading.kind !== "value" || column.takes.kind !== "text") continue;
    references.push({ item, field: `${list}[].${column.member}`, name: String(reading.value), place });
  }
}

function setValue(
  item: Item,
  column: TableColumn,
  value: unknown,
  { draft, place }: { readonly draft: Draft; readonly place: TablePlace },
): void {
  draft.set(item, column.member, value, place);
  if (column.member !== "graphic.layout") return;
  // One place for each band of the new layout; those that no cell fills are told by the shape.
  const gains = new Array<number | undefined>(graphicBandIndices(value as GraphicLayoutName).length).fill(
    undefined,
  );
  (item.graphic as Item).gainsDb = gains;
  draft.mark(gains, "length", place);
}

function setBand(
  item: Item,
  band: number,
  value: unknown,
  {
    draft,
    problems,
    place,
  }: { readonly draft: Draft; readonly problems: Problems; readonly place: TablePlace },
): void {
  const graphic = item.graphic as { layout?: GraphicLayoutName; gainsDb?: unknown[] } | undefined;
  const index = graphic?.layout === undefined ? -1 : graphicBandIndices(graphic.layout).indexOf(band);
  if (index >= 0 && graphic?.gainsDb !== undefined) {
    graphic.gainsDb[index] = value;
    draft.mark(graphic.gainsDb, index, place);
    return;
  }
  problems.add(
    place,
    graphic?.layout === undefined
      ? "There is no graphic equalizer here."
      : `A graphic equalizer of the sort '${graphic.layout}' has no such band.`,
    graphic?.layout === undefined
      ? `Say in '${fieldHeading("equalizations[].channels[].graphic.layout")}' which bands it has.`
      : "Empty the cell.",
  );
}
