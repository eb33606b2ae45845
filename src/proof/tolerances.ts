import type { ProofTolerances } from "../model/index.ts";

/**
 * The largest deviations that still count as within tolerance, unless the caller says otherwise.
 *
 * - Levels: settings in steps of 0.5 dB can always be met within 0.25 dB; a broadband change of half a dB is the smallest
 *   that is commonly called audible side by side (common practice, no source).
 * - Response: 1 dB at one frequency, 0.5 dB rms: what a refit onto other filters should reach (common practice, no source).
 * - Delay against the other paths: half a step of a unit that sets tenths of a millisecond, 18 mm of air. Two ways of one
 *   loudspeaker are judged by their phase at the crossover besides.
 * - Level at the seats of loudspeakers that play together by decision: the half dB above, since that their powers add is no
 *   more exact than that.
 * - Common delay: half a frame of 24 frames a second. ITU-R BT.1359-1 gives 45 ms early and 125 ms late as detectable, but
 *   a screen may already stand near one end.
 */
export const DEFAULT_TOLERANCES: ProofTolerances = {
  responseDb: 1,
  responseRmsDb: 0.5,
  levelDb: 0.3,
  lowEdgeDb: 3,
  phaseDeg: 20,
  seatsDb: 0.5,
  delayMs: 0.051,
  presetDelayMs: 1,
  commonDelayMs: 20.8,
  sumDb: 0.5,
  crossoverPhaseDeg: 12,
  cornerOctaves: 0.03,
  limiterDb: 0.3,
  limiterTimeRatio: 0.1,
  faderDb: 0.3,
};

/**
 * Below this two values are equal: rounding of the arithmetic and of decimals in documents (delays with six decimals in
 * three stages), far below any setting of a unit.
 */
export const EQUAL = { db: 0.001, deg: 0.02, ms: 1e-5, octaves: 1e-6, ratio: 1e-6 } as const;
