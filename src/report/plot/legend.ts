import type { SvgNode } from "../document.ts";
import { node } from "./axes.ts";

/** How a curve is drawn and what it is. */
export interface LegendEntry {
  readonly name: string;
  /** Class of the curve. */
  readonly style: string;
}

/** What was and what is. */
export const BEFORE_AFTER: readonly LegendEntry[] = [
  { name: "before", style: "before" },
  { name: "after", style: "after" },
];

const SAMPLE = 30;
const GAP = 18;
/** Width of a letter on average, in units of the drawing. */
const LETTER = 7.2;

/** Samples of the curves with their names, side by side. */
export function legend(entries: readonly LegendEntry[], left: number, top: number): SvgNode[] {
  let x = left;
  return entries.flatMap(({ name, style }) => {
    const start = x;
    x += SAMPLE + 6 + name.length * LETTER + GAP;
    return [
      node("line", { class: style, x1: start, x2: start + SAMPLE, y1: top - 5, y2: top - 5 }),
      node("text", { x: start + SAMPLE + 6, y: top }, [name]),
    ];
  });
}
