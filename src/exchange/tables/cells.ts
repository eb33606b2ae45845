import { type GraphicLayoutName, graphicBandIndices } from "../../acoustics/index.ts";
import { OPTIONAL_PARTS, type TableColumn } from "./layouts/index.ts";
import type { Item } from "./rows.ts";

/** A cell as it is written. */
export type TableCell = string | number | undefined;

/** What clears a value, and what stands where an optional part is not there. */
export const NONE = "none";

/** The value of a column in an item; undefined where there is none. */
export function valueIn(item: Item, { member, band }: TableColumn): unknown {
  const value = member.split(".").reduce<unknown>((at, name) => (at as Item | undefined)?.[name], item);
  if (band === undefined) return value;
  const index = bandIndex(item, band);
  return index === undefined ? undefined : (value as readonly number[] | undefined)?.[index];
}

/** Where a band stands in the gains of an item's graphic equalizer; undefined where its layout lacks the band. */
export function bandIndex(item: Item, band: number): number | undefined {
  const layout = (item.graphic as { layout?: GraphicLayoutName } | undefined)?.layout;
  const index = layout === undefined ? -1 : graphicBandIndices(layout).indexOf(band);
  return index < 0 ? undefined : index;
}

/** The cell of a column for an item. */
export function cellOf(item: Item, column: TableColumn): TableCell {
  const value = valueIn(item, column);
  if (value === undefined && isLeading(column)) return NONE;
  switch (column.takes.kind) {
    case "number":
      return value as number | undefined;
    case "yes-no": {
      const said = value ?? (partIsThere(item, column) ? column.takes.absent : undefined);
      return said === undefined ? undefined : said === true ? "yes" : "no";
    }
    default:
      return value as string | undefined;
  }
}

/** The part of the item that a column's member lies in: "highPass"; undefined for the item itself. */
export function partOf({ member }: TableColumn): string | undefined {
  const [part] = member.split(".");
  return part !== undefined && OPTIONAL_PARTS[part] !== undefined ? part : undefined;
}

/** Whether a column says that its part is not there. */
export function isLeading(column: TableColumn): boolean {
  const part = partOf(column);
  return part !== undefined && column.member === `${part}.${OPTIONAL_PARTS[part]}`;
}

function partIsThere(item: Item, column: TableColumn): boolean {
  const part = partOf(column);
  return part === undefined || item[part] !== undefined;
}
