/** What stands in a cell that holds no value of its own: a formula, a date, an error of a formula. */
export interface UnusableCell {
  readonly unusable: "formula" | "date" | "error";
  /** What the spreadsheet shows there. */
  readonly shown: string;
}

/** A cell as the file has it; undefined where it is empty. Cells of CSV are always texts. */
export type SheetCell = string | number | boolean | UnusableCell | undefined;

/** A row that is not empty. */
export interface SheetRow {
  /** From 1, as a spreadsheet counts. */
  readonly number: number;
  readonly cells: readonly SheetCell[];
}

/** A sheet of a workbook, or a CSV file. */
export interface Sheet {
  /** The sheet's name; undefined for CSV. */
  readonly name?: string;
  readonly rows: readonly SheetRow[];
  /** Decimal sign of numbers that stand as texts. */
  readonly decimal: "." | ",";
}

/** Bounds of a sheet. The tables of the largest unit have about 3,000 rows and 40 columns. */
export const SHEET_LIMITS = {
  /** Bytes of a file: 8 MiB. */
  bytes: 8 * 1024 * 1024,
  rows: 20_000,
  columns: 400,
} as const;

/** The name of a cell: "B7". Row and column count from 1. */
export function cellName(row: number, column: number): string {
  let letters = "";
  for (let left = column; left > 0; left = Math.floor((left - 1) / 26)) {
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters;
  }
  return `${letters}${row}`;
}

/** Whether a cell holds something that is no value. */
export function isUnusable(cell: SheetCell): cell is UnusableCell {
  return typeof cell === "object";
}
