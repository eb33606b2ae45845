import type { ComplexArray } from "../base/numeric/index.ts";

/** The search begins with the frequencies up to here, where a step of delay turns the phase slowly. */
const FIRST_LIMIT_HZ = 160;

/** Steps of delay to one turn at the highest frequency in use. */
const STEPS_A_TURN = 8;

const REFINEMENTS = 4;

/**
 * The delay in ms that best explains the phase of a ratio of two responses: the τ with the largest |Σ w·X·exp(+j2πfτ)|,
 * searched from the low frequencies up, then refined by weighted least squares on the phase. A constant phase, such as
 * a polarity, has no influence.
 *
 * @param ratio X, of magnitude 1 or 0 at every frequency.
 * @param weights w, not negative.
 * @param maxMs largest delay looked for, in both directions.
 */
export function estimateDelayMs(
  frequenciesHz: ArrayLike<number>,
  ratio: ComplexArray,
  weights: ArrayLike<number>,
  maxMs: number,
): number {
  const highestHz = frequenciesHz[frequenciesHz.length - 1]!;
  const input = { frequenciesHz, ratio, weights };
  let limitHz = Math.min(highestHz, Math.max(FIRST_LIMIT_HZ, 2 * frequenciesHz[0]!));
  let stepMs = 1000 / (STEPS_A_TURN * limitHz);
  let best = strongest(input, limitHz, { centerMs: 0, stepMs, steps: Math.ceil(maxMs / stepMs) });
  while (limitHz < highestHz) {
    limitHz = Math.min(highestHz, 2 * limitHz);
    stepMs = 1000 / (STEPS_A_TURN * limitHz);
    best = strongest(input, limitHz, { centerMs: best, stepMs, steps: 4 });
  }
  for (let pass = 0; pass < REFINEMENTS; pass++) best += remainingDelayMs(input, best);
  return best;
}

interface Input {
  readonly frequenciesHz: ArrayLike<number>;
  readonly ratio: ComplexArray;
  readonly weights: ArrayLike<number>;
}

/** The candidate delay around a center at which the frequencies up to a limit add up best. */
function strongest(
  input: Input,
  limitHz: number,
  { centerMs, stepMs, steps }: { readonly centerMs: number; readonly stepMs: number; readonly steps: number },
): number {
  let bestMs = centerMs;
  let bestPower = -1;
  for (let step = -steps; step <= steps; step++) {
    const candidateMs = centerMs + step * stepMs;
    const { re, im } = alignedSum(input, candidateMs, limitHz);
    const power = re * re + im * im;
    if (power > bestPower) {
      bestPower = power;
      bestMs = candidateMs;
    }
  }
  return bestMs;
}

/** Σ w·X·exp(+j2πfτ) over the frequencies up to a limit. */
function alignedSum({ frequenciesHz, ratio, weights }: Input, delayMs: number, limitHz: number) {
  let re = 0;
  let im = 0;
  for (let k = 0; k < weights.length && frequenciesHz[k]! <= limitHz; k++) {
    const weight = weights[k]!;
    if (weight === 0) continue;
    const angle = (2 * Math.PI * frequenciesHz[k]! * delayMs) / 1000;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    re += weight * (ratio.re[k]! * cos - ratio.im[k]! * sin);
    im += weight * (ratio.re[k]! * sin + ratio.im[k]! * cos);
  }
  return { re, im };
}

/** Slope of the phase that a delay leaves, by weighted least squares over ω. */
function remainingDelayMs(input: Input, delayMs: number): number {
  const { frequenciesHz, ratio, weights } = input;
  const sum = alignedSum(input, delayMs, Number.POSITIVE_INFINITY);
  const common = Math.atan2(sum.im, sum.re);
  let w = 0;
  let wx = 0;
  let wy = 0;
  let wxx = 0;
  let wxy = 0;
  for (let k = 0; k < weights.length; k++) {
    if (weights[k] === 0) continue;
    const x = (2 * Math.PI * frequenciesHz[k]!) / 1000;
    const angle = Math.atan2(ratio.im[k]!, ratio.re[k]!) + x * delayMs - common;
    const y = Math.atan2(Math.sin(angle), Math.cos(angle));
    w += weights[k]!;
    wx += weights[k]! * x;
    wy += weights[k]! * y;
    wxx += weights[k]! * x * x;
    wxy += weights[k]! * x * y;
  }
  const spread = w * wxx - wx * wx;
  return spread > 0 ? -(w * wxy - wx * wy) / spread : 0;
}
