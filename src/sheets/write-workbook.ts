import { harmless } from "../text/index.ts";

/** A sheet to be written: the first row holds the headings. */
export interface SheetToWrite {
  readonly name: string;
  readonly rows: readonly (readonly (string | number | undefined)[])[];
  /** Columns from the left that stay in sight, besides the headings. @defaultValue 0 */
  readonly fixedColumns?: number;
}

/** Widths of a column in characters. */
const NARROWEST = 6;
const WIDEST = 36;

/**
 * A workbook (Office Open XML, ECMA-376) with one sheet a table: numbers as numbers, texts as texts, headings that stay in
 * sight. Acting characters in texts are shown; nothing in it is a formula.
 */
export async function writeWorkbook(sheets: readonly SheetToWrite[]): Promise<Uint8Array> {
  const { default: writeXlsxFile } = await import("write-excel-file/node");
  return writeXlsxFile(
    sheets.map(({ name, rows, fixedColumns = 0 }) => ({
      sheet: name,
      data: rows.map((row, index) => row.map((cell) => cellOf(cell, index === 0))),
      columns: widthsOf(rows),
      stickyRowsCount: 1,
      stickyColumnsCount: fixedColumns,
    })),
  ).toBuffer();
}

function cellOf(cell: string | number | undefined, isHeading: boolean) {
  if (cell === undefined) return null;
  if (typeof cell === "number") return { value: cell, type: Number };
  const value = escaped(harmless(cell));
  return isHeading
    ? { value, type: String, fontWeight: "bold" as const, wrap: true, alignVertical: "top" as const }
    : { value, type: String };
}

/** Texts such as "_x000D_" would be read as a character (ECMA-376-1, ST_Xstring). */
function escaped(text: string): string {
  return text.replace(/_(?=x[0-9A-Fa-f]{4}_)/g, "_x005F_");
}

/** Headings may wrap, so the longest word of a heading counts. */
function widthsOf(rows: SheetToWrite["rows"]): { width: number }[] {
  const [headings = [], ...body] = rows;
  return headings.map((heading, column) => {
    const words = String(heading ?? "").split(" ");
    const cells = body.map((row) => String(row[column] ?? ""));
    const longest = Math.max(...[...words, ...cells].map((text) => text.length));
    return { width: Math.min(WIDEST, Math.max(NARROWEST, longest) + 2) };
  });
}
