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
