import { harmless } from "../../base/text/index.ts";
import { cellName } from "./sheet.ts";
import { LINE_PT, MAIN, STYLE, xmlPart, xmlText } from "./workbook-xml.ts";
import type { SheetToWrite } from "./write-workbook.ts";

type Cell = string | number | undefined;

/** Widths of a column in characters. */
const NARROWEST = 6;
const WIDEST = 36;

/** A sheet (ECMA-376-1, 18.3.1.99): headings and fixed columns stay in sight, columns are as wide as their cells. */
export function worksheetXml({ rows, fixedColumns = 0, choices = [] }: SheetToWrite): string {
  const [headings = [], ...body] = rows;
  const widths = widthsOf(rows);
  const lines = Math.max(1, ...headings.map((heading, k) => linesOf(String(heading ?? ""), widths[k]!)));
  const height = ` ht="${lines * LINE_PT + 3}" customHeight="1"`;
  return xmlPart(
    `<worksheet xmlns="${MAIN}">`,
    view(fixedColumns),
    ...(widths.length === 0 ? [] : ["<cols>", ...widths.map(columnXml), "</cols>"]),
    "<sheetData>",
    rowXml(headings, 1, height),
    ...body.map((row, index) => rowXml(row, index + 2, "")),
    "</sheetData>",
    ...validations(choices, rows.length + ROWS_TO_COME),
    '<pageSetup orientation="landscape"/>',
    "</worksheet>",
  );
}

/** New rows of a table have their choices too. */
const ROWS_TO_COME = 100;

/** As many characters as a list of words may have (ECMA-376-1, 18.3.1.33, and what spreadsheets take). */
const MOST_LISTED = 255;

/** Cells that take one of several words (18.3.1.32): offered, and anything else is refused where it is typed. */
function validations(
  choices: readonly (readonly string[] | undefined)[],
  lastRow: number,
): readonly string[] {
  const listed = choices.flatMap((words, column) => {
    const list = words?.join(",") ?? "";
    const fits = list !== "" && list.length <= MOST_LISTED && !words!.some((word) => /[,"]/.test(word));
    return fits ? [{ list, cells: `${cellName(2, column + 1)}:${cellName(lastRow, column + 1)}` }] : [];
  });
  if (listed.length === 0) return [];
  return [
    `<dataValidations count="${listed.length}">`,
    ...listed.map(
      ({ list, cells }) =>
        `<dataValidation type="list" allowBlank="1" showErrorMessage="1" errorTitle="One of several words" error="Choose one of the words of the list, or leave the cell empty." sqref="${cells}"><formula1>"${xmlText(list)}"</formula1></dataValidation>`,
    ),
    "</dataValidations>",
  ];
}

function view(fixedColumns: number): string {
  const split = fixedColumns === 0 ? "" : ` xSplit="${fixedColumns}"`;
  const pane = fixedColumns === 0 ? "bottomLeft" : "bottomRight";
  return `<sheetViews><sheetView workbookViewId="0"><pane${split} ySplit="1" topLeftCell="${cellName(2, fixedColumns + 1)}" activePane="${pane}" state="frozen"/></sheetView></sheetViews>`;
}

function columnXml(width: number, index: number): string {
  return `<col min="${index + 1}" max="${index + 1}" width="${width}" customWidth="1"/>`;
}

function rowXml(cells: readonly Cell[], number: number, height: string): string {
  const filled = cells.map((cell, index) => cellXml(cell, cellName(number, index + 1), number === 1));
  return `<row r="${number}"${height}>${filled.join("")}</row>`;
}

function cellXml(cell: Cell, name: string, isHeading: boolean): string {
  if (cell === undefined || cell === "") return "";
  const style = isHeading ? STYLE.heading : typeof cell === "string" ? STYLE.text : STYLE.plain;
  if (typeof cell === "number") return `<c r="${name}" s="${style}"><v>${cell}</v></c>`;
  const text = xmlText(escaped(harmless(cell)));
  return `<c r="${name}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
}

/** Texts such as "_x000D_" would be read as a character (ECMA-376-1, 22.9.2.19, ST_Xstring). */
function escaped(text: string): string {
  return text.replace(/_(?=x[0-9A-Fa-f]{4}_)/g, "_x005F_");
}

/** Headings may wrap, so the longest word of a heading counts. */
function widthsOf(rows: readonly (readonly Cell[])[]): readonly number[] {
  const [headings = [], ...body] = rows;
  return headings.map((heading, column) => {
    const words = String(heading ?? "").split(" ");
    const cells = body.map((row) => String(row[column] ?? ""));
    const longest = Math.max(...[...words, ...cells].map((text) => text.length));
    return Math.min(WIDEST, Math.max(NARROWEST, longest) + 2);
  });
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
