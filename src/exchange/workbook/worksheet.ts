import { notReadable, SAVE_AGAIN, unsafe } from "./refusals.ts";
import { richText, unescaped } from "./shared-texts.ts";
import { cellName, SHEET_LIMITS, type SheetCell, type SheetRow } from "./sheet.ts";
import { attribute, children, textIn, type XmlElement } from "./xml.ts";

interface Workbook {
  /** Name of the sheet. */
  readonly name: string;
  readonly shared: readonly string[];
  /** For each cell style whether it shows dates. */
  readonly dates: readonly boolean[];
}

/** The rows of a worksheet that are not empty (ECMA-376-1, 18.3.1.80). */
export function readWorksheet(worksheet: XmlElement, workbook: Workbook): readonly SheetRow[] {
  if (children(children(worksheet, "mergeCells")[0], "mergeCell").length > 0) {
    throw notReadable(
      `The sheet '${workbook.name}' has merged cells: it is not clear which rows they speak for.`,
      "Split the merged cells and fill each one.",
    );
  }
  let above = 0;
  const rows: SheetRow[] = [];
  for (const element of children(children(worksheet, "sheetData")[0], "row")) {
    const number = position(attribute(element, "r"), above, SHEET_LIMITS.rows, workbook.name);
    above = number;
    const cells = cellsOf(element, number, workbook);
    if (cells.some((cell) => cell !== undefined)) rows.push({ number, cells });
  }
  return rows;
}

function cellsOf(row: XmlElement, number: number, workbook: Workbook): readonly SheetCell[] {
  const cells: SheetCell[] = [];
  for (const element of children(row, "c")) {
    const reference = attribute(element, "r");
    const column = position(columnOf(reference), cells.length, SHEET_LIMITS.columns, workbook.name);
    while (cells.length < column - 1) cells.push(undefined);
    cells.push(cellOf(element, workbook, cellName(number, column)));
  }
  while (cells.length > 0 && cells.at(-1) === undefined) cells.pop();
  return cells;
}

/** Positions rise; one that is left out follows the one before. */
function position(given: string | undefined, before: number, most: number, sheet: string): number {
  const value = given === undefined ? before + 1 : Number(given);
  if (!Number.isInteger(value) || value <= before) {
    throw notReadable(`The cells of the sheet '${sheet}' are out of order.`, SAVE_AGAIN);
  }
  if (value <= most) return value;
  throw unsafe(
    `The sheet '${sheet}' has more than ${SHEET_LIMITS.rows} rows or ${SHEET_LIMITS.columns} columns; none is that large.`,
    "Keep the rows and columns of one screen; delete empty rows that only carry a format.",
  );
}

/** "AB7" stands in column 28. */
function columnOf(reference: string | undefined): string | undefined {
  const letters = /^([A-Z]{1,3})[0-9]+$/.exec(reference ?? "")?.[1];
  if (letters === undefined) return reference;
  return String([...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0));
}

function cellOf(element: XmlElement, { name, shared, dates }: Workbook, cell: string): SheetCell {
  const kind = attribute(element, "t") ?? "n";
  const value = children(element, "v")[0];
  const shown = unescaped(textIn(value));
  if (children(element, "f").length > 0) return { unusable: "formula", shown };
  if (kind === "inlineStr") return filled(children(element, "is").map(richText).join(""));
  if (value === undefined) return undefined;
  switch (kind) {
    case "s": {
      const text = shared[Number(shown)];
      if (text === undefined) throw notReadable(`The text of ${cell} in '${name}' is missing.`, SAVE_AGAIN);
      return filled(text);
    }
    case "b":
      return shown === "1";
    case "e":
      return { unusable: "error", shown };
    case "d":
      return { unusable: "date", shown };
    case "n": {
      if (dates[Number(attribute(element, "s") ?? 0)] === true) return { unusable: "date", shown };
      const number = Number(shown);
      if (shown === "" || !Number.isFinite(number)) {
        throw notReadable(`The number of ${cell} in '${name}' is damaged.`, SAVE_AGAIN);
      }
      return number;
    }
    default:
      return filled(shown);
  }
}

function filled(text: string): string | undefined {
  return text === "" ? undefined : text;
}
