import type { Configuration, UnitProfile } from "../../../model/index.ts";
import type { Sheet } from "../../workbook/index.ts";
import type { TableName } from "../layouts/index.ts";
import { checkNumbers, type MovedNumber } from "./check-numbers.ts";
import { checkReferences } from "./check-references.ts";
import { checkShape } from "./check-shape.ts";
import { type FoundTable, foundTable } from "./columns.ts";
import { Draft } from "./draft.ts";
import { Problems, type TableProblem } from "./problem.ts";
import { TableRow } from "./table-row.ts";
import { takeRow } from "./take-row.ts";
import type { Taking } from "./taking.ts";

/** A file with its sheets; a CSV file has one. */
export interface TableFile {
  /** As the user named it. */
  readonly file: string;
  readonly sheets: readonly Sheet[];
}

/** The unit, and whether values are moved to what it can set. */
export interface TakeTablesOptions {
  /** What the unit can do; without it numbers and connectors are not held against a unit. */
  readonly profile?: UnitProfile | undefined;
  /** Whether numbers between the unit's steps go to the nearest one. @defaultValue false: they are refused */
  readonly nearest?: boolean;
}

/** What was taken from one table. */
export interface TakenTable {
  readonly name: TableName;
  readonly file: string;
  readonly sheet?: string;
  readonly rows: number;
  /** Cells that changed something. */
  readonly cells: number;
  readonly addedRows: number;
  readonly takenOutRows: number;
}

/** A configuration with the values of tables, or everything that is wrong with them. */
export type TakenTables =
  | {
      readonly kind: "taken";
      readonly configuration: Configuration;
      readonly tables: readonly TakenTable[];
      readonly moved: readonly MovedNumber[];
    }
  | {
      readonly kind: "refused";
      /** The first 50, in the order of the tables. */
      readonly problems: readonly TableProblem[];
      readonly total: number;
    };

/**
 * Takes filled-in tables into a configuration. Rows are matched by their keys, columns by their headings, never by where
 * they stand. An empty cell leaves a value as it is, "none" clears it. Either everything is taken, or nothing.
 *
 * @example
 * const taken = takeTables(configuration, [{ file: "outputs.csv", sheets: [readCsv(bytes)] }], { profile });
 * if (taken.kind === "refused") for (const { cell, words } of taken.problems) { … }
 */
export function takeTables(
  configuration: Configuration,
  files: readonly TableFile[],
  { profile, nearest = false }: TakeTablesOptions = {},
): TakenTables {
  const problems = new Problems();
  const taking: Taking = {
    before: configuration,
    draft: new Draft(configuration),
    problems,
    met: new Map(),
    references: [],
  };
  const found = files.flatMap(({ file, sheets }) => tablesIn(file, sheets, problems));
  const tables = found.map((table) => takeTable(table, taking));
  const { draft } = taking;
  checkReferences(draft, taking.references, profile, problems);
  const fits = checkShape(draft, problems);
  const moved = fits && profile !== undefined ? checkNumbers(draft, profile, nearest, problems) : [];
  if (problems.total > 0) return { kind: "refused", problems: problems.listed, total: problems.total };
  draft.finish();
  return { kind: "taken", configuration: draft.configuration, tables, moved };
}

function tablesIn(file: string, sheets: readonly Sheet[], problems: Problems): FoundTable[] {
  if (sheets.every(({ rows }) => rows.length === 0)) {
    problems.add({ file }, "The file holds no cell.", "Name the table that was filled in.");
  }
  return sheets.flatMap((sheet) => foundTable(sheet, file, problems) ?? []);
}

function takeTable(table: FoundTable, taking: Taking): TakenTable {
  const outcomes = table.rows.map((row) => takeRow(new TableRow(table, row), taking));
  const { file, sheet } = table.place;
  return {
    name: table.layout.name,
    file,
    ...(sheet === undefined ? {} : { sheet }),
    rows: outcomes.length,
    cells: outcomes.reduce((sum, { cells }) => sum + cells, 0),
    addedRows: outcomes.filter(({ row }) => row === "added").length,
    takenOutRows: outcomes.filter(({ row }) => row === "taken-out").length,
  };
}
