import { BoothkeepError } from "../errors/index.ts";
import { integrationWeights } from "../numeric/index.ts";
import type { Polarity } from "./configuration.ts";
import { estimateDelayMs } from "./delay-estimate.ts";
import { pathFilterPhaseRad, pathMagnitudeDb } from "./path-responses.ts";
import type { Path } from "./paths.ts";
import { checkLengths } from "./pink-noise.ts";
import { type Weighting, weightingPower } from "./weighting.ts";

/** A response taken apart into what is compared separately: level, phase of the filters, delay, polarity. */
export interface ComparableResponse {
  readonly frequenciesHz: ArrayLike<number>;
  /** Level in dB with all gains, one a frequency; finite. */
  readonly magnitudeDb: ArrayLike<number>;
  /** Phase of the filters in radians, without the stated delay and polarity. Absent: only levels are known. */
  readonly phaseRad?: ArrayLike<number>;
  /** Stated delay in ms. @defaultValue 0 */
  readonly delayMs?: number;
  /** Stated polarity. @defaultValue "normal" */
  readonly polarity?: Polarity;
}

export interface ComparisonOptions {
  /** Lowest frequency that counts, in Hz. @defaultValue 20, with the grid's first point near it */
  readonly fromHz?: number;
  /** Highest frequency that counts, in Hz. @defaultValue 20000 */
  readonly toHz?: number;
  /** How much each ln f counts in the means: alike (Z), or by its weighted power in pink noise. @defaultValue "Z" */
  readonly weighting?: Weighting;
  /** `removed`: the mean level difference is taken out before deviations are judged. @defaultValue "kept" */
  readonly level?: "kept" | "removed";
  /** `fitted`: a delay hidden in the phases (in FIR taps, in a measurement) is added to the stated ones. @defaultValue "stated" */
  readonly delay?: "stated" | "fitted";
  /** Largest hidden delay looked for, in ms. @defaultValue 200 */
  readonly maxFittedMs?: number;
  /**
   * Levels more than this far below the stronger response's largest level count as being there: what lies deep in
   * a stop band is not heard. In dB. @defaultValue 60
   */
  readonly floorDb?: number;
}

/** How a second response differs from a first. Deviations are second minus first. */
export interface ResponseComparison {
  /** Weighted mean of the deviation in dB. */
  readonly levelOffsetDb: number;
  /** Largest deviation in dB, with its sign; without the level offset when that was removed. */
  readonly maxDb: number;
  readonly maxAtHz: number;
  /** Weighted root mean square deviation in dB, of the same deviation. */
  readonly rmsDb: number;
  /** How much later the second is, in ms. */
  readonly delayMs: number;
  /** Whether one is upside down against the other: stated polarities and filters together. */
  readonly polarity: "same" | "opposite";
  /** What phase difference is left without delay and polarity; absent when a phase is unknown. */
  readonly phase?: PhaseDeviation;
}

export interface PhaseDeviation {
  /** Largest deviation in degrees, with its sign, in [−180, 180]. */
  readonly maxDeg: number;
  readonly maxAtHz: number;
  readonly rmsDeg: number;
}

/**
 * Compares two responses at the same frequencies: levels, delay, polarity and what is left of the phase, each by itself.
 *
 * @throws BoothkeepError `acoustics.invalid-grid` when the frequencies differ, do not fit the levels, or none of them
 *   lies in the band.
 * @example
 * const { maxDb, maxAtHz } = compareResponses(comparablePath(before, axis), comparablePath(after, axis));
 */
export function compareResponses(
  first: ComparableResponse,
  second: ComparableResponse,
  options: ComparisonOptions = {},
): ResponseComparison {
  const points = sharedPoints(first, second, options);
  const levels = compareLevels(points, options.level ?? "kept");
  const statedMs = (second.delayMs ?? 0) - (first.delayMs ?? 0);
  const flipped = (first.polarity ?? "normal") !== (second.polarity ?? "normal");
  if (first.phaseRad === undefined || second.phaseRad === undefined) {
    return { ...levels, delayMs: statedMs, polarity: flipped ? "opposite" : "same" };
  }
  const difference = points.indices.map((k) => second.phaseRad![k]! - first.phaseRad![k]!);
  const fittedMs =
    options.delay === "fitted" ? hiddenDelayMs(points, difference, options.maxFittedMs ?? 200) : 0;
  const phase = comparePhases(points, difference, fittedMs);
  return {
    ...levels,
    delayMs: statedMs + fittedMs,
    polarity: flipped !== phase.inverted ? "opposite" : "same",
    phase: phase.deviation,
  };
}

/** A path as {@link compareResponses} takes it. */
export function comparablePath(
  path: Path,
  { frequenciesHz }: { readonly frequenciesHz: ArrayLike<number> },
): ComparableResponse {
  return {
    frequenciesHz,
    magnitudeDb: pathMagnitudeDb(path),
    phaseRad: pathFilterPhaseRad(path),
    delayMs: path.delayMs,
    polarity: path.polarity,
  };
}

/** The points of the band, with what the comparison needs of them. */
interface Points {
  /** Positions in the responses' arrays. */
  readonly indices: readonly number[];
  readonly frequenciesHz: readonly number[];
  /** Weight of each point in a mean; they add up to 1. */
  readonly weights: readonly number[];
  /** Levels raised to the floor. */
  readonly firstDb: readonly number[];
  readonly secondDb: readonly number[];
  /** Whether both responses are above the floor, so that a phase difference means something. */
  readonly audible: readonly boolean[];
}

function sharedPoints(
  first: ComparableResponse,
  second: ComparableResponse,
  options: ComparisonOptions,
): Points {
  const { frequenciesHz } = first;
  checkLengths(frequenciesHz, first.magnitudeDb);
  checkLengths(second.frequenciesHz, second.magnitudeDb);
  const indices = bandIndices(frequenciesHz, second.frequenciesHz, options);
  const inBand = indices.map((k) => frequenciesHz[k]!);
  const firstDb = indices.map((k) => first.magnitudeDb[k]!);
  const secondDb = indices.map((k) => second.magnitudeDb[k]!);
  const floorDb = Math.max(...firstDb, ...secondDb) - (options.floorDb ?? 60);
  return {
    indices,
    frequenciesHz: inBand,
    weights: normalizedWeights(inBand, options.weighting ?? "Z"),
    firstDb: firstDb.map((level) => Math.max(floorDb, level)),
    secondDb: secondDb.map((level) => Math.max(floorDb, level)),
    audible: firstDb.map((level, k) => level > floorDb && secondDb[k]! > floorDb),
  };
}

/** A grid's ends are steps nearest to round numbers: that near, a frequency still counts as inside the band. */
const BAND_EDGE_SLACK = 1.01;

function bandIndices(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
  { fromHz = 20, toHz = 20_000 }: ComparisonOptions,
): readonly number[] {
  const indices: number[] = [];
  let equal = first.length === second.length;
  for (let k = 0; equal && k < first.length; k++) {
    equal = Math.abs(first[k]! - second[k]!) <= 1e-9 * first[k]!;
    if (first[k]! >= fromHz / BAND_EDGE_SLACK && first[k]! <= toHz * BAND_EDGE_SLACK) indices.push(k);
  }
  if (!equal) throw noComparison("The two responses are given at different frequencies.");
  if (indices.length === 0) throw noComparison(`No frequency lies between ${fromHz} Hz and ${toHz} Hz.`);
  return indices;
}

function noComparison(what: string): BoothkeepError {
  return new BoothkeepError("acoustics.invalid-grid", what, {
    next: "Compute both responses at the same frequencies, some of them inside the band.",
  });
}

function normalizedWeights(frequenciesHz: readonly number[], weighting: Weighting): readonly number[] {
  if (frequenciesHz.length === 1) return [1];
  const steps = integrationWeights(frequenciesHz.map(Math.log));
  const weights = frequenciesHz.map((hz, k) => steps[k]! * weightingPower(weighting, hz));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

function compareLevels({ firstDb, secondDb, weights, frequenciesHz }: Points, level: "kept" | "removed") {
  const deviations = secondDb.map((db, k) => db - firstDb[k]!);
  const levelOffsetDb = deviations.reduce((sum, db, k) => sum + weights[k]! * db, 0);
  const judged = level === "kept" ? deviations : deviations.map((db) => db - levelOffsetDb);
  const worst = largestIndex(judged);
  return {
    levelOffsetDb,
    maxDb: judged[worst]!,
    maxAtHz: frequenciesHz[worst]!,
    rmsDb: Math.sqrt(judged.reduce((sum, db, k) => sum + weights[k]! * db * db, 0)),
  };
}

function largestIndex(values: readonly number[]): number {
  return values.reduce((best, value, k) => (Math.abs(value) > Math.abs(values[best]!) ? k : best), 0);
}

function hiddenDelayMs(points: Points, difference: readonly number[], maxMs: number): number {
  const weights = points.weights.map((weight, k) => (points.audible[k] ? weight : 0));
  const ratio = { re: Float64Array.from(difference, Math.cos), im: Float64Array.from(difference, Math.sin) };
  return estimateDelayMs(points.frequenciesHz, ratio, weights, maxMs);
}

/** Phase left when a delay is taken out; upside down when more than half of the weighted phase points the other way. */
function comparePhases(points: Points, difference: readonly number[], delayMs: number) {
  const aligned = difference.map(
    (angle, k) => angle + (2 * Math.PI * points.frequenciesHz[k]! * delayMs) / 1000,
  );
  const inPhase = aligned.reduce(
    (sum, angle, k) => sum + (points.audible[k] ? points.weights[k]! * Math.cos(angle) : 0),
    0,
  );
  const inverted = inPhase < 0;
  const restDeg = aligned.map((angle, k) => {
    if (!points.audible[k]) return 0;
    const sign = inverted ? -1 : 1;
    return (180 / Math.PI) * Math.atan2(sign * Math.sin(angle), sign * Math.cos(angle));
  });
  const worst = largestIndex(restDeg);
  const deviation: PhaseDeviation = {
    maxDeg: restDeg[worst]!,
    maxAtHz: points.frequenciesHz[worst]!,
    rmsDeg: Math.sqrt(restDeg.reduce((sum, deg, k) => sum + points.weights[k]! * deg * deg, 0)),
  };
  return { inverted, deviation };
}
