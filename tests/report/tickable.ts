import type { Block, Cell, ReportDocument } from "../../src/report/index.ts";

/** A line with a box to tick. */
export interface Tickable {
  /** Heading of level 2 that it stands under; "" before the first. */
  readonly section: string;
  readonly cells: readonly string[];
}

const words = (cell: Cell): string => (typeof cell === "string" ? cell : cell.text);

/** Every line with a box, in reading order. */
export function tickables(report: ReportDocument): readonly Tickable[] {
  const found: Tickable[] = [];
  let section = "";
  const walk = (block: Block): void => {
    if (block.kind === "heading" && block.level === 2) section = block.text;
    if (block.kind === "columns") block.groups.flat().forEach(walk);
    if (block.kind === "list" && block.marker === "box") {
      for (const { lead, text } of block.items)
        found.push({ section, cells: lead === undefined ? [text] : [lead, text] });
    }
    if (block.kind === "table" && block.boxes) {
      for (const row of block.rows) found.push({ section, cells: row.map(words) });
    }
  };
  report.blocks.forEach(walk);
  return found;
}

/** What stands over lines with boxes: captions and headers of their tables. */
export function frames(report: ReportDocument): readonly string[] {
  const found: string[] = [];
  const walk = (block: Block): void => {
    if (block.kind === "columns") block.groups.flat().forEach(walk);
    if (block.kind === "table" && block.boxes) {
      found.push(block.caption, ...block.columns.map(({ header }) => header));
    }
  };
  report.blocks.forEach(walk);
  return found;
}

/** How many members of the first list the second one lacks, each counted as often as it stands. */
export function missing(first: readonly string[], second: readonly string[]): number {
  const left = new Map<string, number>();
  for (const text of second) left.set(text, (left.get(text) ?? 0) + 1);
  return first.filter((text) => {
    const count = left.get(text) ?? 0;
    left.set(text, count - 1);
    return count <= 0;
  }).length;
}
