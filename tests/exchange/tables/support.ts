import { csvText } from "../../../src/base/text/index.ts";
import {
  type ConfigurationTable,
  type TableFile,
  type TakenTables,
  tablesOf,
  takeTables,
} from "../../../src/exchange/tables/index.ts";
import { readCsv, readWorkbook, type Sheet, writeWorkbook } from "../../../src/exchange/workbook/index.ts";
import type { Configuration, UnitProfile } from "../../../src/model/index.ts";
import { sampleJson } from "../fieldmap/sample-maps.ts";

export { sampleJson };

/** A table with cells that a test may change. */
export interface LooseTable {
  name: string;
  headings: string[];
  rows: (string | number | undefined)[][];
}

export const profileOf = ({ unit }: Configuration): UnitProfile =>
  sampleJson(`profiles/${unit.profileId}.json`);

export function looseTables(configuration: Configuration, only?: ConfigurationTable["name"]): LooseTable[] {
  return tablesOf(configuration, only === undefined ? {} : { only: [only] }).map(
    ({ name, headings, rows }) => ({
      name,
      headings: [...headings],
      rows: rows.map((row) => [...row]),
    }),
  );
}

/** A table by CSV and back. */
export function byCsv(table: LooseTable, form: Parameters<typeof csvText>[1] = {}): Sheet {
  return readCsv(Buffer.from(csvText([table.headings, ...table.rows], form), "utf8"), form);
}

/** Tables by a workbook and back. */
export async function byWorkbook(tables: readonly LooseTable[]): Promise<readonly Sheet[]> {
  return readWorkbook(
    await writeWorkbook(tables.map(({ name, headings, rows }) => ({ name, rows: [headings, ...rows] }))),
  );
}

export function csvFiles(tables: readonly LooseTable[]): TableFile[] {
  return tables.map((table) => ({ file: `${table.name}.csv`, sheets: [byCsv(table)] }));
}

/** Takes tables that have nothing wrong with them. */
export function taken(
  configuration: Configuration,
  files: readonly TableFile[],
  options: Parameters<typeof takeTables>[2] = {},
): Extract<TakenTables, { kind: "taken" }> {
  const result = takeTables(configuration, files, options);
  if (result.kind === "refused") throw new Error(JSON.stringify(result.problems.slice(0, 3), null, 1));
  return result;
}

/** What is wrong with one table of CSV. */
export function refused(
  configuration: Configuration,
  table: LooseTable,
  options: Parameters<typeof takeTables>[2] = {},
): Extract<TakenTables, { kind: "refused" }> {
  const result = takeTables(configuration, csvFiles([table]), options);
  if (result.kind === "taken") throw new Error("Nothing was refused.");
  return result;
}
