import { cellName } from "../../workbook/index.ts";

/** Where something stands in a table. */
export interface TablePlace {
  readonly file: string;
  readonly sheet?: string;
  /** From 1, as a spreadsheet counts. */
  readonly row?: number;
  readonly column?: number;
  /** Heading of the column. */
  readonly heading?: string;
}

/** One thing that is wrong with a table. */
export interface TableProblem extends TablePlace {
  /** The cell by its name in a spreadsheet: "F12". */
  readonly cell?: string;
  /** A sentence: what is wrong. */
  readonly words: string;
  /** What to do, as a sentence. */
  readonly next: string;
}

/** Collects what is wrong; all of it, though only the first are put into words. */
export class Problems {
  readonly #listed: TableProblem[] = [];
  #total = 0;

  get total(): number {
    return this.#total;
  }

  /** In the order of the tables. */
  get listed(): readonly TableProblem[] {
    const tables = [...new Set(this.#listed.map(tableOf))];
    return [...this.#listed].sort(
      (a, b) =>
        tables.indexOf(tableOf(a)) - tables.indexOf(tableOf(b)) ||
        (a.row ?? 0) - (b.row ?? 0) ||
        (a.column ?? 0) - (b.column ?? 0),
    );
  }

  add(place: TablePlace, words: string, next: string): void {
    this.#total += 1;
    if (this.#listed.length >= MAX_PROBLEMS) return;
    const { row, column } = place;
    const cell = row === undefined || column === undefined ? {} : { cell: cellName(row, column) };
    this.#listed.push({ ...place, ...cell, words, next });
  }
}

function tableOf({ file, sheet = "" }: TablePlace): string {
  return `${file}\n${sheet}`;
}

/** How many problems are told of a table. */
export const MAX_PROBLEMS = 50;
