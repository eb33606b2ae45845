import { fitsStars } from "../../base/text/index.ts";

/** The parts of a place by ids, each of which may hold stars. */
export type Pattern = readonly string[];

/** Whether a place fits a pattern of as many parts. */
export function fitsPlace(pattern: Pattern, path: readonly string[]): boolean {
  return pattern.length === path.length && pattern.every((part, index) => fitsStars(part, path[index]!));
}

/** The one with more of it spelled out first, part by part from the left; 0 for two that are alike. */
export function moreSpelledOut(a: Pattern, b: Pattern): number {
  for (const [index, part] of a.entries()) {
    const difference = spelledOut(b[index] ?? "*") - spelledOut(part);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** How much of a part is spelled out. A part without a star is longer than any with one. */
function spelledOut(part: string): number {
  return part.includes("*") ? part.replaceAll("*", "").length : 1000;
}
