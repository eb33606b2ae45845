import { harmless } from "./harmless.ts";

/** A cell: a text, a number, or nothing. Numbers stay numbers for a spreadsheet, also below zero. */
export type CsvCell = string | number | undefined;

/** How the cells of a table stand in a text. */
export interface CsvForm {
  /** Between two cells. @defaultValue "," */
  readonly separator?: "," | ";" | "\t";
  /** Decimal sign of numbers; "," goes with another separator. @defaultValue "." */
  readonly decimal?: "." | ",";
  /** Whether the text starts with U+FEFF, by which spreadsheets know UTF-8. @defaultValue false */
  readonly byteOrderMark?: boolean;
}

/**
 * What spreadsheets take for a formula, and a text that looks as if it had been guarded already: full-width forms and
 * signs behind white space count in some. Source: OWASP, CSV Injection.
 */
const ACTS = /^'*[\s\p{Cf}]*[=+\-@\t\r＝＋－＠]/u;

/**
 * A table as CSV (RFC 4180: quotes doubled, every line ends with CR LF). A text that a spreadsheet would run as a
 * formula gets an apostrophe before it, which {@link withoutGuard} takes off again; acting characters are shown.
 */
export function csvText(rows: readonly (readonly CsvCell[])[], form: CsvForm = {}): string {
  const { separator = ",", decimal = ".", byteOrderMark = false } = form;
  const lines = rows.map((row) => `${row.map((cell) => written(cell, decimal)).join(separator)}\r\n`);
  return `${byteOrderMark ? "\ufeff" : ""}${lines.join("")}`;
}

/** One text cell, guarded and quoted where it must be. */
export function csvCell(text: string): string {
  const safe = guarded(harmless(text));
  return /[",\r\n;\t]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A text that no spreadsheet takes for a formula. */
export function guarded(text: string): string {
  return ACTS.test(text) ? `'${text}` : text;
}

/** A text as it was before {@link guarded}. */
export function withoutGuard(text: string): string {
  return text.startsWith("'") && ACTS.test(text.slice(1)) ? text.slice(1) : text;
}

function written(cell: CsvCell, decimal: "." | ","): string {
  if (cell === undefined) return "";
  if (typeof cell === "string") return csvCell(cell);
  return String(cell).replace(".", decimal);
}
