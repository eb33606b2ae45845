import type { PathDeviation, PathReason, PathVerdict, ProofTolerances } from "../model/index.ts";
import { EQUAL } from "./tolerances.ts";

/** A verdict with what it rests on. */
export interface Judgement {
  readonly verdict: PathVerdict;
  readonly reasons: readonly PathReason[];
}

/**
 * Judges a path that exists on both sides.
 *
 * @param presetDelayMs delay of its whole preset beyond the delay that all have in common.
 */
export function judgePath(
  deviation: PathDeviation,
  presetDelayMs: number,
  tolerances: ProofTolerances,
): Judgement {
  const { db, deg, ms } = EQUAL;
  const criteria: readonly Criterion[] = [
    criterion("polarity", deviation.polarity === "same" ? 0 : 1, 0, 0),
    criterion("level", deviation.levelDb, db, tolerances.levelDb),
    criterion("response", deviation.responseDb, db, tolerances.responseDb),
    criterion("response", deviation.responseRmsDb, db, tolerances.responseRmsDb),
    criterion("low-edge", deviation.lowEdgeDb, db, tolerances.lowEdgeDb),
    criterion("phase", deviation.phaseDeg, deg, tolerances.phaseDeg),
    criterion("delay", deviation.delayMs, ms, tolerances.delayMs),
    criterion("preset-delay", presetDelayMs, ms, tolerances.presetDelayMs),
    criterion("high-edge", deviation.highEdgeDb, db, Number.POSITIVE_INFINITY),
  ];
  for (const grade of ["audible", "within-tolerance"] as const) {
    const reasons = criteria.filter((item) => item.grade === grade).map(({ reason }) => reason);
    if (reasons.length > 0) return { verdict: grade, reasons: [...new Set(reasons)] };
  }
  return { verdict: "equal", reasons: [] };
}

interface Criterion {
  readonly reason: PathReason;
  readonly grade: "equal" | "within-tolerance" | "audible";
}

/** Equal up to `equal`, within tolerance up to `tolerance`; a rounding error beyond the tolerance is none. */
function criterion(reason: PathReason, value: number, equal: number, tolerance: number): Criterion {
  const size = Math.abs(value);
  if (size <= equal) return { reason, grade: "equal" };
  return { reason, grade: size <= tolerance * (1 + 1e-9) ? "within-tolerance" : "audible" };
}

/** Most serious first. */
const SERIOUSNESS: readonly PathVerdict[] = [
  "missing",
  "new",
  "audible",
  "given-up",
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
