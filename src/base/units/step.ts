/** A range of values that a unit can be set to: from `min` on in equal steps up to `max`. */
export interface StepRange {
  readonly min: number;
  readonly max: number;
  /** Distance of two settings; absent where the range is continuous. */
  readonly step?: number | undefined;
}

/** Rounding errors of the arithmetic, as a part of a step, that do not make a value lie off its step. */
const STEP_SLACK = 1e-6;

/**
 * The setting of a range nearest to a value; halfway goes up. Values outside end at the range's ends.
 *
 * @example
 * nearestOnStep(0.26, { min: -12, max: 12, step: 0.5 }); // 0.5
 */
export function nearestOnStep(value: number, range: StepRange): number {
  const clamped = Math.min(range.max, Math.max(range.min, value));
  if (range.step === undefined || range.step <= 0) return clamped;
  const steps = Math.floor((range.max - range.min) / range.step + STEP_SLACK);
  const index = Math.min(steps, Math.floor((clamped - range.min) / range.step + 0.5));
  return cleanDecimal(range.min + index * range.step);
}

/** Whether a value lies in a range and, within rounding errors, on one of its steps. */
export function liesOnStep(value: number, range: StepRange): boolean {
  if (!(value >= range.min - slackOf(range) && value <= range.max + slackOf(range))) return false;
  if (range.step === undefined || range.step <= 0) return true;
  const index = (value - range.min) / range.step;
  return Math.abs(index - Math.round(index)) <= STEP_SLACK;
}

function slackOf(range: StepRange): number {
  return STEP_SLACK * (range.step ?? 0);
}

/** Removes the rounding errors of a sum of decimal steps: 0.30000000000000004 becomes 0.3. */
function cleanDecimal(value: number): number {
  return Number(value.toPrecision(12));
}
