import { type ComparisonTolerances, fieldAt } from "../../model/index.ts";
import type { Change } from "../changes/index.ts";

/**
 * Differences below these are counted, not told: 0.05 dB; half a sample at 48 kHz, where no delay step is known;
 * a tenth of a percent of a frequency. Common practice, no source.
 */
export const COMPARISON_TOLERANCES: ComparisonTolerances = {
  levelDb: 0.05,
  responseDb: 0.05,
  delayMs: 0.0104,
  frequencyRatio: 0.001,
};

/**
 * Between two models numbers stand on other steps: half a step of 24 an octave for frequencies, half a step of 0.1 dB
 * and of a sample at 48 kHz. Common practice, no source.
 */
export const OTHER_MODEL_COMPARISON_TOLERANCES: ComparisonTolerances = {
  ...COMPARISON_TOLERANCES,
  frequencyRatio: 0.0145,
};

/** Rounding errors of decimal numbers, so that a difference of just the tolerance is inside it. */
const SLACK = 1e-9;

/**
 * Whether a change of a single number is too small to be told. Only numbers of a kind with a tolerance: settings that
 * are chosen (orders, slots, marks) always count.
 */
export function isBelowTolerance(change: Change, tolerances: ComparisonTolerances): boolean {
  if (change.kind !== "changed") return false;
  const { before, after } = change;
  if (typeof before !== "number" || typeof after !== "number") return false;
  const difference = Math.abs(after - before) - SLACK;
  const field = fieldAt(change.field);
  switch (field?.unit) {
    case "dB":
    case "dBFS":
      return difference <= tolerances.levelDb;
    case "ms":
      return difference <= tolerances.delayMs;
    case "Hz":
      return difference <= tolerances.frequencyRatio * Math.abs(before);
    default:
      return /\.(q|slope)$/.test(change.field) && difference <= tolerances.frequencyRatio * Math.abs(before);
  }
}
