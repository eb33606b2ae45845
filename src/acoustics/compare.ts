import { BoothkeepError } from "../base/errors/index.ts";
import { integrationWeights } from "../base/numeric/index.ts";
import type { AcousticPolarity } from "./configuration.ts";
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
  readonly polarity?: AcousticPolarity;
}

/** Where and how two responses are compared. */
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
   * How far below the largest level of both responses a level still counts, in dB. Frequencies at which both lie deeper
   * do not count; a level that alone lies deeper is taken as this deep. What lies deep in a stop band is not heard.
   *
   * @defaultValue 60
   */
  readonly floorDb?: number;
}

/** How a second response differs from a first. Deviations are second minus first. */
export interface ResponseComparison {
  /** Weighted mean level difference in dB, over the frequencies that both pass. */
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

/** How far two phases are apart. */
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
  /** Weight of each point in a mean. */
  readonly weights: readonly number[];
  readonly firstDb: readonly number[];
  readonly secondDb: readonly number[];
  readonly floorDb: number;
  /** Weights of the points at which both responses pass: where level offset and phase mean something. */
  readonly passing: readonly number[];
}

function sharedPoints(
  first: ComparableResponse,
  second: ComparableResponse,
  options: ComparisonOptions,
): Points {
  const { frequenciesHz } = first;
  checkLengths(frequenciesHz, first.magnitudeDb);
  checkLengths(second.frequenciesHz, second.magnitudeDb);
  const { floorDb = 60, weighting = "Z" } = options;
  const indices = bandIndices(frequenciesHz, second.frequenciesHz, options);
  const inBand = indices.map((k) => frequenciesHz[k]!);
  const firstDb = indices.map((k) => first.magnitudeDb[k]!);
  const secondDb = indices.map((k) => second.magnitudeDb[k]!);
  const weights = bandWeights(inBand, weighting);
  const firstFloorDb = Math.max(...firstDb) - floorDb;
  const secondFloorDb = Math.max(...secondDb) - floorDb;
  const passing = weights.map((weight, k) =>
    firstDb[k]! > firstFloorDb && secondDb[k]! > secondFloorDb ? weight : 0,
  );
  return { indices, frequenciesHz: inBand, weights, firstDb, secondDb, floorDb, passing };
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

function bandWeights(frequenciesHz: readonly number[], weighting: Weighting): readonly number[] {
  if (frequenciesHz.length === 1) return [1];
  const steps = integrationWeights(frequenciesHz.map(Math.log));
  return frequenciesHz.map((hz, k) => steps[k]! * weightingPower(weighting, hz));
}

function compareLevels(points: Points, level: "kept" | "removed") {
  const { firstDb, secondDb, weights, passing, frequenciesHz } = points;
  const differences = secondDb.map((db, k) => db - firstDb[k]!);
  const levelOffsetDb = weightedMean(differences, passing) ?? Math.max(...secondDb) - Math.max(...firstDb);
  const shiftDb = level === "removed" ? levelOffsetDb : 0;
  const shifted = secondDb.map((db) => db - shiftDb);
  const floorDb = Math.max(...firstDb, ...shifted) - points.floorDb;
  const counted = weights.map((weight, k) => (firstDb[k]! > floorDb || shifted[k]! > floorDb ? weight : 0));
  const deviations = shifted.map((db, k) =>
    counted[k] === 0 ? 0 : Math.max(floorDb, db) - Math.max(floorDb, firstDb[k]!),
  );
  const worst = largestIndex(deviations);
  return {
    levelOffsetDb,
    maxDb: deviations[worst]!,
    maxAtHz: frequenciesHz[worst]!,
    rmsDb: rootMeanSquare(deviations, counted),
  };
}

/** Undefined when nothing has a weight. */
function weightedMean(values: readonly number[], weights: readonly number[]): number | undefined {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (!(total > 0)) return undefined;
  return values.reduce((sum, value, k) => sum + weights[k]! * value, 0) / total;
}

function rootMeanSquare(values: readonly number[], weights: readonly number[]): number {
  return Math.sqrt(
    weightedMean(
      values.map((value) => value * value),
      weights,
    ) ?? 0,
  );
}

function largestIndex(values: readonly number[]): number {
  return values.reduce((best, value, k) => (Math.abs(value) > Math.abs(values[best]!) ? k : best), 0);
}

function hiddenDelayMs(points: Points, difference: readonly number[], maxMs: number): number {
  const ratio = { re: Float64Array.from(difference, Math.cos), im: Float64Array.from(difference, Math.sin) };
  return estimateDelayMs(points.frequenciesHz, ratio, points.passing, maxMs);
}

/** Phase left when a delay is taken out; upside down when the weighted phase points more backwards than forwards. */
function comparePhases({ frequenciesHz, passing }: Points, difference: readonly number[], delayMs: number) {
  const aligned = difference.map((angle, k) => angle + (2 * Math.PI * frequenciesHz[k]! * delayMs) / 1000);
  const inverted = (weightedMean(aligned.map(Math.cos), passing) ?? 0) < 0;
  const sign = inverted ? -1 : 1;
  const restDeg = aligned.map((angle, k) =>
    passing[k] === 0 ? 0 : (180 / Math.PI) * Math.atan2(sign * Math.sin(angle), sign * Math.cos(angle)),
  );
  const worst = largestIndex(restDeg);
  const deviation: PhaseDeviation = {
    maxDeg: restDeg[worst]!,
    maxAtHz: frequenciesHz[worst]!,
    rmsDeg: rootMeanSquare(restDeg, passing),
  };
  return { inverted, deviation };
}
