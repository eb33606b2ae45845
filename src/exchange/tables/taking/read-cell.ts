import { harmless, numberOfText } from "../../../base/text/index.ts";
import { nearestName } from "../../../model/index.ts";
import { quotedShort } from "../../../words/index.ts";
import { isUnusable, type SheetCell } from "../../workbook/index.ts";
import { NONE, type TableCell } from "../cells.ts";
import type { Takes } from "../layouts/index.ts";

/** What a cell says. */
export type CellReading =
  /** Empty, or as it was written. */
  | { readonly kind: "same" }
  | { readonly kind: "none" }
  | { readonly kind: "value"; readonly value: string | number | boolean }
  | { readonly kind: "wrong"; readonly words: string; readonly next: string };

export interface CellExpectation {
  readonly takes: Takes;
  /** What stood there when the table was written. */
  readonly before: TableCell;
  readonly optional: boolean;
  readonly decimal: "." | ",";
}

/** Reads one cell of a table. A cell that still reads as it was written changes nothing, whatever it holds. */
export function readCell(cell: SheetCell, expected: CellExpectation): CellReading {
  if (cell === undefined || (typeof cell === "string" && cell.trim() === "")) return { kind: "same" };
  if (isUnusable(cell)) return unusable(cell.unusable, cell.shown);
  if (typeof cell === "string" && typeof expected.before === "string" && cell === harmless(expected.before)) {
    return { kind: "same" };
  }
  if (typeof cell === "string" && cell.trim().toLowerCase() === NONE) {
    if (expected.before === NONE) return { kind: "same" };
    if (expected.before === undefined && expected.optional) return { kind: "same" };
    if (expected.optional) return { kind: "none" };
    if (expected.takes.kind !== "text") {
      return wrong(
        "There is always a value here; it cannot be cleared.",
        "Write a value, or leave the cell empty.",
      );
    }
  }
  const read = READERS[expected.takes.kind](cell, expected);
  return read.kind === "value" && sameCell(read.value, expected.before) ? { kind: "same" } : read;
}

/** Spreadsheets keep 15 digits of a number. */
function sameCell(value: string | number | boolean, before: TableCell): boolean {
  if (typeof value === "number" && typeof before === "number") {
    return Number(value.toPrecision(15)) === Number(before.toPrecision(15));
  }
  if (typeof value === "boolean") return before === (value ? "yes" : "no");
  return value === before;
}

type Filled = string | number | boolean;
type Reader = (cell: Filled, expected: CellExpectation) => CellReading;

const READERS: Readonly<Record<Takes["kind"], Reader>> = {
  number: readNumber,
  "yes-no": (cell) => {
    if (typeof cell === "boolean") return { kind: "value", value: cell };
    const said = { yes: true, no: false }[String(cell).trim().toLowerCase()];
    return said === undefined
      ? wrong(`${quotedShort(String(cell))} is neither yes nor no.`, "Write yes or no.")
      : { kind: "value", value: said };
  },
  choice: (cell, { takes }) => {
    const values = takes.kind === "choice" ? takes.values : [];
    const text = String(cell).trim();
    const chosen = values.find((value) => value.toLowerCase() === text.toLowerCase());
    if (chosen !== undefined) return { kind: "value", value: chosen };
    const meant = nearestName(text, values);
    return wrong(
      `${quotedShort(text)} is not one of the words that stand here.`,
      `${meant === undefined ? "Write" : `Was '${meant}' meant? Write`} one of: ${values.join(", ")}.`,
    );
  },
  text: (cell) =>
    typeof cell === "boolean"
      ? wrong("A yes or no stands where a name belongs.", "Write the name as text.")
      : { kind: "value", value: String(cell).trim() },
};

function readNumber(cell: Filled, { decimal }: CellExpectation): CellReading {
  if (typeof cell === "number") return { kind: "value", value: cell + 0 };
  if (typeof cell === "boolean")
    return wrong("A yes or no stands where a number belongs.", "Write a number.");
  const text = cell.trim().replace(/^[\u2212\u2013](?=[\d.,])/, "-");
  const value = numberOfText(text, { decimal });
  if (value !== undefined) return { kind: "value", value };
  const otherSign = numberOfText(text, { decimal: decimal === "." ? "," : "." });
  if (otherSign !== undefined) {
    return decimal === "."
      ? wrong(
          `${quotedShort(cell)} has a decimal comma.`,
          `Write ${otherSign}. In a CSV file with decimal commas throughout, say so with '--decimal comma'.`,
        )
      : wrong(
          `${quotedShort(cell)} has a decimal point; this table has decimal commas.`,
          `Write ${String(otherSign).replace(".", ",")}.`,
        );
  }
  if (/^[-+]?[\d.,]+\s*[a-zµ°Ω%]+/i.test(text)) {
    return wrong(
      `${quotedShort(cell)} is more than a number.`,
      "Leave the unit out; it stands in the heading.",
    );
  }
  return wrong(
    `${quotedShort(cell)} is no number.`,
    "Write a number, or leave the cell empty to keep the value.",
  );
}

function unusable(kind: "formula" | "date" | "error", shown: string): CellReading {
  switch (kind) {
    case "formula":
      return wrong(
        `The cell holds a formula${shown === "" ? "" : ` (it shows ${quotedShort(shown)})`}; what it gives may be out of date.`,
        "Put the value itself in: copy the cell and paste it as a value.",
      );
    case "date":
      return wrong(
        "The spreadsheet has made a date of what was typed.",
        "Set the cell's format to number or text, and type the value again.",
      );
    case "error":
      return wrong(`The cell holds an error of the spreadsheet (${quotedShort(shown)}).`, "Write the value.");
  }
}

function wrong(words: string, next: string): CellReading {
  return { kind: "wrong", words, next };
}
