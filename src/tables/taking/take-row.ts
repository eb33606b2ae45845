import { type GraphicLayout, graphicBandIndices } from "../../acoustics/index.ts";
import { nearestName } from "../../model/index.ts";
import { isUnusable, type SheetCell } from "../../sheets/index.ts";
import { harmless } from "../../text/index.ts";
import { cellOf, isLeading, partOf } from "../cells.ts";
import { fieldHeading, SCREEN_HEADINGS } from "../headings.ts";
import type { TableColumn } from "../layouts/index.ts";
import { type Item, keyText } from "../rows.ts";
import type { NamedElsewhere } from "./check-references.ts";
import type { FoundColumn, FoundTable } from "./columns.ts";
import type { Draft, UnknownKey } from "./draft.ts";
import { type Problems, quoted, type TablePlace } from "./problem.ts";
import { type CellReading, readCell } from "./read-cell.ts";

/** What the rows of all tables are held against. */
export interface Taking {
  readonly draft: Draft;
  readonly problems: Problems;
  /** Where each row stood that was met already, by table and keys. */
  readonly met: Map<string, TablePlace>;
  /** Names that must be there elsewhere. */
  readonly references: NamedElsewhere[];
}

/** What became of a row: how many cells changed something, and whether the row came or went. */
export interface RowOutcome {
  readonly cells: number;
  readonly row: "kept" | "added" | "taken-out";
}

interface RowCell {
  readonly cell: SheetCell;
  readonly place: TablePlace;
}

/** A row of a table as it stands in the file. */
export class TableRow {
  readonly table: FoundTable;
  readonly place: TablePlace;
  readonly #cells: readonly SheetCell[];

  constructor(table: FoundTable, row: { readonly number: number; readonly cells: readonly SheetCell[] }) {
    this.table = table;
    this.place = { ...table.place, row: row.number };
    this.#cells = row.cells;
  }

  at({ index, heading }: FoundColumn): RowCell {
    return { cell: this.#cells[index], place: { ...this.place, column: index + 1, heading } };
  }

  /** The text of a key or a name; "" where the cell is empty. */
  textAt(column: FoundColumn): string {
    const { cell } = this.at(column);
    return cell === undefined || isUnusable(cell) ? "" : String(cell).trim();
  }
}

interface Assignment {
  readonly column: TableColumn;
  readonly reading: Extract<CellReading, { kind: "value" | "none" }>;
  readonly place: TablePlace;
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
        `The row names something new, ${named(keys)}, but gives no value.`,
        "Fill the row, or take it out.",
      );
    }
    return NOTHING;
  }
  const item = taking.draft.make(table.layout.list, keys);
  taking.draft.markRow(item, { place: row.place, list: table.layout.list });
  apply(item, assignments, taking);
  noteReferences(item, table.layout.list, assignments, taking.references);
  return { cells: assignments.length, row: existing === undefined ? "added" : "kept" };
}

function named(keys: readonly string[]): string {
  return quoted(keys.at(-1)!);
}

/** The keys of a row; undefined when they are wrong, of another screen, or met before. */
function keysOf(row: TableRow, { draft, problems, met }: Taking): readonly string[] | undefined {
  const { columns, layout } = row.table;
  const { siteId, screenId } = draft.configuration.screen;
  for (const column of columns) {
    if (column.role.kind !== "screen") continue;
    const said = row.textAt(column);
    const own = column.role.which === 0 ? siteId : screenId;
    if (said === "" || said === own) continue;
    problems.add(
      row.at(column).place,
      `The row belongs to another screen: ${SCREEN_HEADINGS[column.role.which].toLowerCase()} ${quoted(said)}, not '${own}'.`,
      "Take the table of this screen. To use the values here all the same, take the columns of site and screen out.",
    );
    return undefined;
  }
  const keyColumns = columns.filter(({ role }) => role.kind === "key");
  const empty = keyColumns.find((column) => row.textAt(column) === "");
  if (empty !== undefined) {
    problems.add(
      row.at(empty).place,
      `'${empty.heading}' is empty: it is not clear which row this is.`,
      "Fill it, or take the row out.",
    );
    return undefined;
  }
  const keys: string[] = [];
  for (const column of keyColumns) {
    if (column.role.kind === "key") keys[column.role.level] = row.textAt(column);
  }
  const name = keyText([layout.name, ...keys]);
  const before = met.get(name);
  if (before !== undefined) {
    const where =
      before.file === row.place.file && before.sheet === row.place.sheet
        ? ""
        : ` of ${before.sheet ?? before.file}`;
    problems.add(
      row.place,
      `${keys.map(quoted).join(", ")} stands in two rows; the other is row ${before.row}${where}.`,
      "Keep one of the two rows.",
    );
    return undefined;
  }
  met.set(name, row.place);
  return keys;
}

/** Lists whose items come into being when a table fills them. */
const MADE_BY_USE = "equalizations[].channels";

/** Whether the key that is missing may be added; says so where not. */
function mayGrow(
  row: TableRow,
  keys: readonly string[],
  unknown: UnknownKey,
  { draft, problems }: Taking,
): boolean {
  const { layout, columns } = row.table;
  const { level, key, known } = unknown;
  const isLast = level.list === layout.list;
  const isChannel = level.key !== "channelId" || draft.configuration.channels.some(({ id }) => id === key);
  if (isChannel && ((isLast && layout.growsBy !== undefined) || level.list === MADE_BY_USE)) return true;
  const names = level.key === "channelId" ? draft.configuration.channels.map(({ id }) => id) : known;
  const meant = nearestName(key, names);
  const heading = fieldHeading(level.keyField);
  const column = columns.find((item) => item.heading.toLowerCase() === heading.toLowerCase());
  problems.add(
    column === undefined ? row.place : row.at(column).place,
    `The configuration has no ${heading[0]!.toLowerCase()}${heading.slice(1)} ${quoted(key)}${keys.length > 1 && !isChannel ? "" : outer(keys, key)}.`,
    meant === undefined ? knownWords(names) : `Was '${meant}' meant? ${knownWords(names)}`,
  );
  return false;
}

function outer(keys: readonly string[], key: string): string {
  const above = keys.slice(0, keys.indexOf(key));
  return above.length === 0 ? "" : ` in ${above.map(quoted).join(", ")}`;
}

const MOST_NAMES = 12;

function knownWords(names: readonly string[]): string {
  if (names.length === 0) return "There are none.";
  const more = names.length > MOST_NAMES ? ` and ${names.length - MOST_NAMES} more` : "";
  return `There are: ${names.slice(0, MOST_NAMES).join(", ")}${more}.`;
}

/** Columns that only tell what a row is about must tell the truth: else a row was filled for something else. */
function checkShown(row: TableRow, keys: readonly string[], { draft, problems }: Taking): void {
  for (const column of row.table.columns) {
    if (column.role.kind !== "shown") continue;
    const said = row.textAt(column);
    const is = harmless(column.role.shown.of(draft.configuration, keys)).trim();
    if (said === "" || said === is) continue;
    problems.add(
      row.at(column).place,
      `The row says ${quoted(said)}, but ${named(keys)} is ${quoted(is)}.`,
      "This column only tells what a row is about. Check that the values stand in the right row, then empty the cell.",
    );
  }
}

/** What the cells of a row change; undefined when one of them is wrong. */
function assignmentsOf(row: TableRow, item: Item, problems: Problems): readonly Assignment[] | undefined {
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
  return typeof cell === "string" && cell.trim() !== "" && cell.trim().toLowerCase() !== before;
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
      `There is no ${named(keys)} to take out.`,
      "Take the row out, or check its keys.",
    );
  } else if (other !== undefined) {
    problems.add(
      other.place,
      `The row takes ${named(keys)} out ('none' in '${removal.place.heading}') and changes it at once.`,
      "Do one of the two.",
    );
  } else {
    draft.takeOut(row.table.layout.list, keys, existing);
    return { cells: 1, row: "taken-out" };
  }
  return NOTHING;
}

function apply(item: Item, assignments: readonly Assignment[], taking: Taking): void {
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

function noteReferences(
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
  const gains = new Array<number | undefined>(graphicBandIndices(value as GraphicLayout).length).fill(
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
  const graphic = item.graphic as { layout?: GraphicLayout; gainsDb?: unknown[] } | undefined;
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
