import { harmless } from "../../base/text/index.ts";
import { type Cell, type Column, cellText, type Table } from "../document.ts";
import { pad, widthOf, wrapLines } from "./columns.ts";
import type { Style } from "./text-style.ts";

const GAP = "  ";
/** Columns up to this width are never squeezed, so numbers stay beside their units; wider ones not below it. */
const NARROWEST = 10;
const BOX = "[ ]";

interface Grid {
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
}

/**
 * A table in columns; where it is too wide its cells wrap, and where even that is too wide each row becomes a few
 * lines of "header: value".
 */
export function textTable(table: Table, columns: number, style: Style): string[] {
  const caption = wrapLines(harmless(table.caption), columns).map(style.strong);
  const grid = boxed(table);
  const widths = columnWidths(grid, columns);
  return [...caption, ...(widths === undefined ? asRecords(grid, columns) : asColumns(grid, widths, style))];
}

function boxed(table: Table): Grid {
  if (!table.boxes) return table;
  return {
    columns: [{ header: "" }, ...table.columns],
    rows: table.rows.map((row) => [BOX, ...row]),
  };
}

function columnWidths({ columns, rows }: Grid, available: number): number[] | undefined {
  const cells = columns.map(({ header }, index) => [
    harmless(header),
    ...rows.map((row) => harmless(cellText(row[index] ?? ""))),
  ]);
  const natural = cells.map((texts) => Math.max(1, ...texts.map(widthOf)));
  const narrowest = natural.map((width) => Math.min(NARROWEST, width));
  const room = available - GAP.length * (columns.length - 1);
  if (sum(natural) <= room) return natural;
  if (sum(narrowest) > room) return undefined;
  return shareOut(natural, narrowest, room);
}

/** Starts from the narrowest widths and gives column by column to whichever lacks most. */
function shareOut(natural: readonly number[], narrowest: readonly number[], room: number): number[] {
  const widths = [...narrowest];
  for (let left = room - sum(widths); left > 0; left--) {
    const lacks = widths.map((width, index) => natural[index]! - width);
    const most = lacks.indexOf(Math.max(...lacks));
    widths[most]! += 1;
  }
  return widths;
}

function asColumns({ columns, rows }: Grid, widths: readonly number[], style: Style): string[] {
  const line = (cells: readonly Cell[]): string[] => {
    const wrapped = widths.map((width, index) => wrapLines(harmless(cellText(cells[index] ?? "")), width));
    const height = Math.max(...wrapped.map((lines) => lines.length));
    return Array.from({ length: height }, (_, at) =>
      widths
        .map((width, index) => {
          const text = pad(wrapped[index]?.[at] ?? "", width, columns[index]?.align);
          return typeof cells[index] === "object" ? style.strong(text) : text;
        })
        .join(GAP)
        .trimEnd(),
    );
  };
  const rule = widths.map((width) => "─".repeat(width)).join(GAP);
  return [...line(columns.map(({ header }) => header)), style.faint(rule), ...rows.flatMap(line)];
}

function asRecords({ columns, rows }: Grid, available: number): string[] {
  return rows.flatMap((row, at) => {
    const lines = columns.flatMap(({ header }, index) => {
      const value = harmless(cellText(row[index] ?? ""));
      if (value === "") return [];
      const text = header === "" ? value : `${harmless(header)}: ${value}`;
      return wrapLines(text, available - 2).map((part) => `  ${part}`);
    });
    return at === 0 ? lines : ["", ...lines];
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
