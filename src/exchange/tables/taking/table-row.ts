import { isUnusable, type SheetCell } from "../../workbook/index.ts";
import type { FoundColumn, FoundTable } from "./columns.ts";
import type { TablePlace } from "./problem.ts";

interface RowCell {
  readonly cell: SheetCell;
  readonly place: TablePlace;
}

/** A row of a table as it stands in the file. */
export class TableRow {
  readonly table: FoundTable;
  readonly place: TablePlace;
  readonly #cells: readonly SheetCell[];

  constructor(table: FoundTable, row: { readonly number: number; readonly cells: readonly SheetCell[] }) {
    this.table = table;
    this.place = { ...table.place, row: row.number };
    this.#cells = row.cells;
  }

  at({ index, heading }: FoundColumn): RowCell {
    return { cell: this.#cells[index], place: { ...this.place, column: index + 1, heading } };
  }

  /** The text of a key or a name; "" where the cell is empty. */
  textAt(column: FoundColumn): string {
    const { cell } = this.at(column);
    return cell === undefined || isUnusable(cell) ? "" : String(cell).trim();
  }
}
