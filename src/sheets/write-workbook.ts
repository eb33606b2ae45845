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
  return writeXlsxFile(sheets.map(sheetOf), FONT).toBuffer();
}

const FONT = { fontFamily: "Arial", fontSize: 10 } as const;
/** Height of a line of that font in points. */
const LINE_PT = 13;

function sheetOf({ name, rows, fixedColumns = 0 }: SheetToWrite) {
  const [headings = [], ...body] = rows;
  const columns = widthsOf(rows);
  const lines = Math.max(
    1,
    ...headings.map((heading, k) => linesOf(String(heading ?? ""), columns[k]!.width)),
  );
  const height = lines * LINE_PT + 3;
  return {
    sheet: name,
    data: [headings.map((cell) => headingOf(cell, height)), ...body.map((row) => row.map(cellOf))],
    columns,
    orientation: "landscape" as const,
    stickyRowsCount: 1,
    stickyColumnsCount: fixedColumns,
  };
}

function cellOf(cell: string | number | undefined) {
  if (cell === undefined) return null;
  if (typeof cell === "number") return { value: cell, type: Number };
  return { value: escaped(harmless(cell)), type: String };
}

function headingOf(cell: string | number | undefined, height: number) {
  const plain = cellOf(cell);
  return plain === null
    ? null
    : { ...plain, fontWeight: "bold" as const, wrap: true, alignVertical: "top" as const, height };
}

/** How many lines a heading takes in a column of so many characters. */
function linesOf(heading: string, width: number): number {
  let lines = 1;
  let used = 0;
  for (const word of heading.split(" ")) {
    if (used > 0 && used + 1 + word.length > width - 2) {
      lines += 1;
      used = word.length;
    } else used += (used > 0 ? 1 : 0) + word.length;
  }
  return lines;
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
