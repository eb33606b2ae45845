import type { ShapeProblem } from "./shape-problem.ts";

/** What no schema can say of the names that a unit shows: ranges run forwards, the shortest is no longer than the longest. */
export function labelProblems(document: unknown, kind: string): readonly ShapeProblem[] {
  if (kind !== "boothkeep.unit-profile" || !isObject(document) || !isObject(document.labels)) return [];
  const { minLength, maxLength, characters } = document.labels;
  const problems: ShapeProblem[] = [];
  if (typeof minLength === "number" && typeof maxLength === "number" && minLength > maxLength) {
    problems.push({
      fault: "outside-limits",
      pointer: "/labels/minLength",
      words: `The shortest name, ${minLength} characters, is longer than the longest, ${maxLength}.`,
    });
  }
  for (const [index, text] of (Array.isArray(characters) ? characters : []).entries()) {
    const [first, last] =
      typeof text === "string" ? [text.codePointAt(0), [...text].at(-1)?.codePointAt(0)] : [];
    if (first === undefined || last === undefined || first <= last) continue;
    problems.push({
      fault: "wrong-text",
      pointer: `/labels/characters/${index}`,
      words: `The range ${JSON.stringify(text)} runs backwards: its first character comes after its last.`,
    });
  }
  return problems;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
