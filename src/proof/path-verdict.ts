import type { PathDeviation, PathReason, PathVerdict, ProofTolerances } from "../model/index.ts";
import { EQUAL } from "./tolerances.ts";

/** A verdict with what it rests on. */
export interface Judgement {
  readonly verdict: PathVerdict;
  readonly reasons: readonly PathReason[];
}

/** Judges a path that exists on both sides. */
export function judgePath(deviation: PathDeviation, tolerances: ProofTolerances): Judgement {
  const { db, deg, ms } = EQUAL;
  const grades: readonly (readonly [PathReason, Grade])[] = [
    ["polarity", deviation.polarity === "same" ? "equal" : "audible"],
    ["level", graded(deviation.levelDb, db, tolerances.levelDb)],
    ["response", graded(deviation.responseDb, db, tolerances.responseDb)],
    ["response", graded(deviation.responseRmsDb, db, tolerances.responseRmsDb)],
    ["low-edge", graded(deviation.lowEdgeDb, db, tolerances.lowEdgeDb)],
    ["phase", graded(deviation.phaseDeg, deg, tolerances.phaseDeg)],
    ["delay", graded(deviation.delayMs, ms, tolerances.delayMs)],
    ["high-edge", graded(deviation.highEdgeDb, db, Number.POSITIVE_INFINITY)],
  ];
  const verdict = worstVerdict(grades.map(([, grade]) => grade));
  if (verdict === "equal") return { verdict, reasons: [] };
  const reasons = grades.filter(([, grade]) => grade === verdict).map(([reason]) => reason);
  return { verdict, reasons: [...new Set(reasons)] };
}

/** A verdict on one number. */
export type Grade = "equal" | "within-tolerance" | "audible";

/** Equal up to `equal`, within tolerance up to `tolerance`; a rounding error beyond the tolerance is none. */
export function graded(value: number, equal: number, tolerance: number): Grade {
  const size = Math.abs(value);
  if (size <= equal) return "equal";
  return size <= tolerance * (1 + 1e-9) ? "within-tolerance" : "audible";
}

/** Most serious first. */
const SERIOUSNESS: readonly PathVerdict[] = [
  "missing",
  "new",
  "audible",
  "left-out",
  "changed-by-decision",
  "within-tolerance",
  "equal",
];

/** Orders verdicts, the most serious first. */
export function compareVerdicts(a: PathVerdict, b: PathVerdict): number {
  return SERIOUSNESS.indexOf(a) - SERIOUSNESS.indexOf(b);
}

/** The most serious of several verdicts; none is equal. */
export function worstVerdict(verdicts: Iterable<PathVerdict>): PathVerdict {
  let worst: PathVerdict = "equal";
  for (const verdict of verdicts) if (compareVerdicts(verdict, worst) < 0) worst = verdict;
  return worst;
}
