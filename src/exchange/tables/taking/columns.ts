import { nearestName } from "../../../model/index.ts";
import { quotedShort } from "../../../words/index.ts";
import { isUnusable, type Sheet, type SheetRow } from "../../workbook/index.ts";
import { columnHeading, keyHeadings, plainHeading, SCREEN_HEADINGS, withoutUnit } from "../headings.ts";
import { LAYOUTS, type ShownColumn, type TableColumn, type TableLayout } from "../layouts/index.ts";
import type { Problems, TablePlace } from "./problem.ts";

/** What a column of a table is for. */
export type ColumnRole =
  | { readonly kind: "screen"; readonly which: 0 | 1 }
  | { readonly kind: "key"; readonly level: number }
  | { readonly kind: "shown"; readonly shown: ShownColumn }
  | { readonly kind: "value"; readonly column: TableColumn };

/** A column of a table as it stands in the file. */
export interface FoundColumn {
  readonly role: ColumnRole;
  /** From 0. */
  readonly index: number;
  readonly heading: string;
}

/** A sheet known as a table of some sort. */
export interface FoundTable {
  readonly layout: TableLayout;
  readonly columns: readonly FoundColumn[];
  readonly rows: readonly SheetRow[];
  readonly place: TablePlace;
  readonly decimal: "." | ",";
}

/** Finds out by a sheet's name or headings which table it is, and what its columns are for. */
export function foundTable(sheet: Sheet, file: string, problems: Problems): FoundTable | undefined {
  const place: TablePlace = { file, ...(sheet.name === undefined ? {} : { sheet: sheet.name }) };
  const [header, ...rows] = sheet.rows;
  if (header === undefined) return undefined;
  const headings = header.cells.map((cell) =>
    cell === undefined || isUnusable(cell) ? "" : String(cell).trim(),
  );
  const layout = layoutFor(sheet.name, headings);
  if (layout === undefined) {
    problems.add(
      { ...place, row: header.number },
      "The first row holds no headings of a table.",
      "Take the headings from a table that 'boothkeep table write' makes; take other sheets out.",
    );
    return undefined;
  }
  const columns = foundColumns({ layout, headings, rows, place: { ...place, row: header.number } }, problems);
  return columns === undefined ? undefined : { layout, columns, rows, place, decimal: sheet.decimal };
}

/** The sheet's name decides; else the table that knows most of the headings. */
function layoutFor(name: string | undefined, headings: readonly string[]): TableLayout | undefined {
  const named = LAYOUTS.find((layout) => layout.name === name?.trim().toLowerCase());
  if (named !== undefined) return named;
  const plain = new Set(headings.map(plainHeading));
  const known = LAYOUTS.map((layout) => {
    const roles = rolesOf(layout);
    const keys = keyHeadings(layout).map(plainHeading);
    const fits = keys.every((key) => plain.has(key));
    const values = [...plain].filter((heading) => ["value", "key"].includes(roles.get(heading)?.kind ?? ""));
    return { layout, score: (fits ? 1000 : 0) + values.length };
  });
  const best = known.reduce((a, b) => (b.score > a.score ? b : a));
  return best.score > 0 ? best.layout : undefined;
}

interface HeaderRow {
  readonly layout: TableLayout;
  readonly headings: readonly string[];
  readonly rows: readonly SheetRow[];
  readonly place: TablePlace;
}

/** The columns by their headings; undefined where rows could not be matched. */
function foundColumns(header: HeaderRow, problems: Problems): readonly FoundColumn[] | undefined {
  const { layout, headings, rows, place } = header;
  const roles = rolesOf(layout);
  const seen = new Map<string, number>();
  const width = Math.max(headings.length, ...rows.map((row) => row.cells.length));
  const columns: FoundColumn[] = [];
  for (let index = 0; index < width; index += 1) {
    const heading = headings[index] ?? "";
    const at = { ...place, column: index + 1, ...(heading === "" ? {} : { heading }) };
    if (heading === "") {
      if (rows.some((row) => row.cells[index] !== undefined)) {
        problems.add(at, "A column has values but no heading.", "Give it a heading, or take its cells out.");
      }
      continue;
    }
    const plain = plainHeading(heading);
    const role = roles.get(plain);
    if (role === undefined) {
      problems.add(at, unknownWords(heading, layout), unknownNext(plain, [...roles.keys()], layout));
    } else if (seen.has(plain)) {
      problems.add(at, `The column ${quotedShort(heading)} stands twice.`, "Keep one of the two.");
    } else {
      columns.push({ role, index, heading });
    }
    seen.set(plain, index);
  }
  const missing = keyHeadings(layout).filter((heading) => !seen.has(plainHeading(heading)));
  for (const heading of missing) {
    problems.add(
      place,
      `The column '${heading}' is missing: rows are matched by it.`,
      "Add it, as 'boothkeep table write' makes it.",
    );
  }
  return missing.length > 0 ? undefined : columns;
}

function unknownWords(heading: string, { name }: TableLayout): string {
  return `The table '${name}' has no column ${quotedShort(heading)}.`;
}

function unknownNext(plain: string, known: readonly string[], layout: TableLayout): string {
  const other = known.find((heading) => withoutUnit(heading) === withoutUnit(plain));
  const meant = other ?? nearestName(plain, known);
  const as = (heading: string) => `'${properHeading(layout, heading)}'`;
  if (other !== undefined) return `The heading with its unit is ${as(other)}; give the values in that unit.`;
  return meant === undefined
    ? "Take the column out, or take the heading from a table that 'boothkeep table write' makes."
    : `Was ${as(meant)} meant? Write it so, or take the column out.`;
}

/** A heading as it is written. */
function properHeading(layout: TableLayout, plain: string): string {
  return allHeadings(layout).find((heading) => plainHeading(heading) === plain) ?? plain;
}

function allHeadings(layout: TableLayout): readonly string[] {
  return [
    ...SCREEN_HEADINGS,
    ...keyHeadings(layout),
    ...(layout.shown ?? []).map(({ heading }) => heading),
    ...layout.columns.map((column) => columnHeading(layout, column)),
  ];
}

function rolesOf(layout: TableLayout): ReadonlyMap<string, ColumnRole> {
  return new Map<string, ColumnRole>([
    ...SCREEN_HEADINGS.map(
      (heading, index) => [plainHeading(heading), { kind: "screen", which: index === 0 ? 0 : 1 }] as const,
    ),
    ...keyHeadings(layout).map((heading, level) => [plainHeading(heading), { kind: "key", level }] as const),
    ...(layout.shown ?? []).map((shown) => [plainHeading(shown.heading), { kind: "shown", shown }] as const),
    ...layout.columns.map(
      (column) => [plainHeading(columnHeading(layout, column)), { kind: "value", column }] as const,
    ),
  ]);
}
