/** The parts of a place by ids, each of which may hold stars. */
export type Pattern = readonly string[];

const compiled = new Map<string, RegExp>();

/** Whether a text fits a pattern in which a star stands for any text. */
export function fitsPattern(pattern: string, text: string): boolean {
  if (pattern === "*" || pattern === text) return true;
  if (!pattern.includes("*")) return false;
  let expression = compiled.get(pattern);
  if (expression === undefined) {
    const parts = pattern.split("*").map((part) => part.replace(/[\\^$.+?()[\]{}|]/g, "\\$&"));
    expression = new RegExp(`^${parts.join(".*")}$`, "su");
    compiled.set(pattern, expression);
  }
  return expression.test(text);
}

/** Whether a place fits a pattern of as many parts. */
export function fitsPlace(pattern: Pattern, path: readonly string[]): boolean {
  return pattern.length === path.length && pattern.every((part, index) => fitsPattern(part, path[index]!));
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
