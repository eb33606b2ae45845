import type { PathVerdict } from "../../../model/index.ts";

/** A verdict as people read it. */
export const PATH_VERDICT_WORDS: Readonly<Record<PathVerdict, string>> = {
  equal: "equal",
  "within-tolerance": "within tolerance",
  audible: "audible",
  missing: "missing",
  "changed-by-decision": "changed by decision",
  "left-out": "left out by decision",
  new: "new",
};

/** Two names are said, of more the first and how many there are besides. */
export function named(names: readonly string[], others: string): string {
  if (names.length <= 2) return names.join(" and ");
  return `${names[0]} and ${names.length - 1} ${others}`;
}
