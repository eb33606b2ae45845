import type { Configuration } from "../../model/index.ts";
import { cellOf, isLeading, NONE, type TableCell } from "./cells.ts";
import { columnHeading, keyHeadings, SCREEN_HEADINGS } from "./headings.ts";
import { LAYOUTS, type TableColumn, type TableLayout, type TableName } from "./layouts/index.ts";
import { keyedRows } from "./rows.ts";

/** A table of a configuration: the screen, the keys of each row, what it is about, its values. */
export interface ConfigurationTable {
  readonly name: TableName;
  readonly title: string;
  readonly headings: readonly string[];
  /** How many columns from the left say which row it is. */
  readonly keyColumns: number;
  readonly rows: readonly (readonly TableCell[])[];
  /** For each column the words that it takes, where it takes one of several. */
  readonly choices: readonly (readonly string[] | undefined)[];
}

/** Which tables are written. */
export interface TablesOfOptions {
  /** @defaultValue all that have rows */
  readonly only?: readonly TableName[];
}

/**
 * The tables of a configuration. Taken back unchanged they change nothing; see {@link takeTables}.
 *
 * @example
 * const [table] = tablesOf(configuration, { only: ["outputs"] });
 * csvText([table.headings, ...table.rows]);
 */
export function tablesOf(
  configuration: Configuration,
  { only }: TablesOfOptions = {},
): readonly ConfigurationTable[] {
  return LAYOUTS.filter(({ name }) => only === undefined || only.includes(name))
    .map((layout) => tableOf(configuration, layout))
    .filter(({ rows }) => only !== undefined || rows.length > 0);
}

/** The words of a column; "none" is one where it clears something or takes it out. */
function choicesOf(column: TableColumn, { growsBy }: TableLayout): readonly string[] | undefined {
  const { takes, member, optional } = column;
  const words = takes.kind === "choice" ? takes.values : takes.kind === "yes-no" ? ["yes", "no"] : undefined;
  const clears = optional === true || isLeading(column) || member === growsBy;
  return words === undefined ? undefined : [...words, ...(clears ? [NONE] : [])];
}

function tableOf(configuration: Configuration, layout: TableLayout): ConfigurationTable {
  const { name, title, list, shown = [] } = layout;
  const rows = keyedRows(configuration, list);
  // Bands that no equalizer of the screen has are left out.
  const columns = layout.columns.filter(
    (column) => column.band === undefined || rows.some(({ item }) => cellOf(item, column) !== undefined),
  );
  const { siteId, screenId } = configuration.screen;
  const keys = keyHeadings(layout);
  const ahead = SCREEN_HEADINGS.length + keys.length + shown.length;
  return {
    name,
    title,
    choices: [
      ...new Array<undefined>(ahead).fill(undefined),
      ...columns.map((column) => choicesOf(column, layout)),
    ],
    headings: [
      ...SCREEN_HEADINGS,
      ...keys,
      ...shown.map(({ heading }) => heading),
      ...columns.map((column) => columnHeading(layout, column)),
    ],
    keyColumns: SCREEN_HEADINGS.length + keys.length,
    rows: rows.map((row) => [
      siteId,
      screenId,
      ...row.keys,
      ...shown.map(({ of }) => of(configuration, row.keys)),
      ...columns.map((column) => cellOf(row.item, column)),
    ]),
  };
}
