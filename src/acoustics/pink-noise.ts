import { BoothkeepError } from "../base/errors/index.ts";
import { integrationWeights } from "../base/numeric/index.ts";
import { dbFromPower, powerFromDb } from "../base/units/index.ts";
import type { FrequencyBand } from "./band-frequencies.ts";
import { type Weighting, weightingPower } from "./weighting.ts";

/** How the level of pink noise is weighted. */
export interface PinkNoiseOptions {
  /** @defaultValue "C" */
  readonly weighting?: Weighting;
}

/**
 * Change of the weighted level of pink noise through a response in dB:
 *
 *     10 lg( ∫|H|²·|W|² d ln f / ∫|W|² d ln f )
 *
 * over the given frequencies. Pink noise has the same power in every ln f. On an evenly spaced logarithmic grid the rule
 * is of fourth order: 1/24 octave is good to 0.001 dB for the filters of a sound processor (not for a Q above about 20).
 * Sources: IEC 61672-1:2013 annex E (weighting); the definition of pink noise.
 *
 * @param frequenciesHz increasing; at least two.
 * @param magnitudeDb level of the response in dB, one a frequency; −Infinity counts as no signal.
 * @example
 * pinkNoiseLevelChangeDb(axis.frequenciesHz, pathMagnitudeDb(path)); // C-weighted
 */
export function pinkNoiseLevelChangeDb(
  frequenciesHz: ArrayLike<number>,
  magnitudeDb: ArrayLike<number>,
  { weighting = "C" }: PinkNoiseOptions = {},
): number {
  checkLengths(frequenciesHz, magnitudeDb);
  const weights = pinkNoiseWeights(frequenciesHz, weighting);
  let before = 0;
  let after = 0;
  for (let k = 0; k < weights.length; k++) {
    before += weights[k]!;
    after += weights[k]! * powerFromDb(magnitudeDb[k]!);
  }
  return dbFromPower(after / before);
}

/** The band that levels of pink noise are meant over, in Hz. */
const AUDIO_BAND: FrequencyBand = { fromHz: 20, toHz: 20_000 };

/**
 * Weights of an average over ln f in which every frequency counts by its weighted power in pink noise. Where the
 * first or last frequency is the step of a grid nearest to 20 Hz or 20 kHz, the strip between it and the round number is
 * added (or taken off) with its value.
 */
export function pinkNoiseWeights(frequenciesHz: ArrayLike<number>, weighting: Weighting): Float64Array {
  const logarithms = Float64Array.from(frequenciesHz, Math.log);
  const weights = integrationWeights(logarithms);
  const last = weights.length - 1;
  const strips = [
    logarithms[0]! - Math.log(AUDIO_BAND.fromHz),
    Math.log(AUDIO_BAND.toHz) - logarithms[last]!,
  ] as const;
  const halfSteps = [logarithms[1]! - logarithms[0]!, logarithms[last]! - logarithms[last - 1]!].map(
    (step) => step / 2,
  );
  if (Math.abs(strips[0]) <= halfSteps[0]!) weights[0]! += strips[0];
  if (Math.abs(strips[1]) <= halfSteps[1]!) weights[last]! += strips[1];
  for (let k = 0; k < weights.length; k++) weights[k]! *= weightingPower(weighting, frequenciesHz[k]!);
  return weights;
}

/** Steps of the closed integral of a weighting over a band: far more than doubles can tell. */
const BAND_STEPS = 2000;

/**
 * Weighted level of ideal pink noise limited to a band, in dB relative to pink noise of 20 Hz to 20 kHz at the same
 * level in every third octave. For 20 Hz to 120 Hz, C-weighted, −6.42 dB: why an LFE channel that plays 10 dB louder in
 * band reads only 3.58 dB more on the meter.
 */
export function pinkNoiseBandLevelDb(
  band: FrequencyBand,
  { weighting = "C" }: PinkNoiseOptions = {},
): number {
  return dbFromPower(weightedIntegral(band, weighting) / weightedIntegral(AUDIO_BAND, weighting));
}

function weightedIntegral({ fromHz, toHz }: FrequencyBand, weighting: Weighting): number {
  const step = Math.log(toHz / fromHz) / BAND_STEPS;
  const frequenciesHz = Float64Array.from({ length: BAND_STEPS + 1 }, (_, k) => fromHz * Math.exp(k * step));
  return pinkNoiseWeights(frequenciesHz, weighting).reduce((sum, weight) => sum + weight, 0);
}

/** Refuses a list of levels that does not belong to the frequencies. */
export function checkLengths(frequenciesHz: ArrayLike<number>, values: ArrayLike<number>): void {
  if (frequenciesHz.length === values.length && values.length > 1) return;
  throw new BoothkeepError(
    "acoustics.invalid-grid",
    `${values.length} levels do not belong to ${frequenciesHz.length} frequencies.`,
    { next: "Give one level for each frequency, at least two." },
  );
}
