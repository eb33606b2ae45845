import { wrapDeg } from "../base/units/index.ts";
import { type FilterResponse, levelOf } from "./filter-response.ts";

/** A way ends where it is this far below its largest level: there two Linkwitz-Riley ways of one corner meet. */
const EDGE_DB = 20 * Math.log10(2);

/** Ripple is looked for this far on both sides of the crossover frequency. */
const RIPPLE_OCTAVES = 1;

/** Two polarities whose ripples differ by less than this are equally flat. */
const EQUAL_RIPPLE_DB = 0.05;

/** How two neighbouring ways of a loudspeaker meet, with ideal drivers. */
export interface WayPair {
  readonly lowerWayId: string;
  readonly upperWayId: string;
  /**
   * From the lower end of the upper way to the upper end of the lower way in octaves; an end is 6.02 dB below the way's
   * largest level, at the latest at the end of the grid. Negative: a gap.
   */
  readonly overlapOctaves: number;
  /** Absent when nowhere between the two bands the lower way hands over to the upper one. */
  readonly crossing?: WayCrossing;
}

/** The crossover frequency of two ways and what happens there. */
export interface WayCrossing {
  /** Where both ways have the same level, in Hz. */
  readonly frequencyHz: number;
  /** Level of either way there, in dB. */
  readonly levelDb: number;
  /** Phase of the lower way minus phase of the upper way there, as set, in degrees, [−180, 180). */
  readonly phaseDifferenceDeg: number;
  /** Level of the sum of the two ways there, as set, in dB. */
  readonly sumDb: number;
  /** The same with the upper way's polarity turned over. */
  readonly sumInvertedDb: number;
  /** Largest minus smallest level of the sum within an octave on both sides, as set, in dB. */
  readonly rippleDb: number;
  /** The same with the upper way's polarity turned over. */
  readonly rippleInvertedDb: number;
  /** Which of the two is flatter; `either` when they differ by less than 0.05 dB. */
  readonly flatter: "as-set" | "inverted" | "either";
}

interface Way {
  readonly wayId: string;
  readonly response: FilterResponse;
}

/** Compares two neighbouring ways. Between grid points phases run straight over ln f, levels nearly so. */
export function compareWays(lower: Way, upper: Way, frequenciesHz: Float64Array): WayPair {
  const pair = {
    lowerWayId: lower.wayId,
    upperWayId: upper.wayId,
    overlapOctaves: Math.log2(
      upperEnd(lower.response.magnitudeDb, frequenciesHz) /
        lowerEnd(upper.response.magnitudeDb, frequenciesHz),
    ),
  };
  const position = crossingPosition(lower.response.magnitudeDb, upper.response.magnitudeDb);
  if (position === undefined) return pair;
  return { ...pair, crossing: crossingAt(position, lower.response, upper.response, frequenciesHz) };
}

function crossingAt(
  position: number,
  lower: FilterResponse,
  upper: FilterResponse,
  frequenciesHz: Float64Array,
): WayCrossing {
  const frequencyHz = frequencyAt(position, frequenciesHz);
  const levelDb = valueAt(position, lower.magnitudeDb);
  const phaseDifferenceDeg = phaseDifferenceAt(position, lower, upper);
  const half = (Math.PI / 180) * (phaseDifferenceDeg / 2);
  const rippleDb = ripple(lower, upper, 1, { frequenciesHz, frequencyHz });
  const rippleInvertedDb = ripple(lower, upper, -1, { frequenciesHz, frequencyHz });
  return {
    frequencyHz,
    levelDb,
    phaseDifferenceDeg,
    sumDb: levelDb + levelOf(2 * Math.cos(half)),
    sumInvertedDb: levelDb + levelOf(2 * Math.sin(half)),
    rippleDb,
    rippleInvertedDb,
    flatter:
      Math.abs(rippleDb - rippleInvertedDb) < EQUAL_RIPPLE_DB
        ? "either"
        : rippleDb < rippleInvertedDb
          ? "as-set"
          : "inverted",
  };
}

/** Where the lower way falls below the upper one, as a fractional position between the two ways' largest levels. */
function crossingPosition(lowerDb: Float64Array, upperDb: Float64Array): number | undefined {
  for (let k = firstOfLargest(lowerDb); k < lastOfLargest(upperDb); k++) {
    const here = lowerDb[k]! - upperDb[k]!;
    const next = lowerDb[k + 1]! - upperDb[k + 1]!;
    if (here >= 0 && next < 0) return k + here / (here - next);
  }
  return undefined;
}

function firstOfLargest(levelsDb: Float64Array): number {
  const largest = levelsDb.reduce((a, b) => Math.max(a, b));
  return levelsDb.findIndex((level) => level >= largest);
}

function lastOfLargest(levelsDb: Float64Array): number {
  const largest = levelsDb.reduce((a, b) => Math.max(a, b));
  return levelsDb.findLastIndex((level) => level >= largest);
}

/** The highest frequency at which a way is still above its end level. */
function upperEnd(levelsDb: Float64Array, frequenciesHz: Float64Array): number {
  const end = levelsDb.reduce((a, b) => Math.max(a, b)) - EDGE_DB;
  const k = levelsDb.findLastIndex((level) => level >= end);
  if (k === levelsDb.length - 1) return frequenciesHz[k]!;
  return frequencyAt(k + (levelsDb[k]! - end) / (levelsDb[k]! - levelsDb[k + 1]!), frequenciesHz);
}

/** The lowest frequency at which a way is already above its end level. */
function lowerEnd(levelsDb: Float64Array, frequenciesHz: Float64Array): number {
  const end = levelsDb.reduce((a, b) => Math.max(a, b)) - EDGE_DB;
  const k = levelsDb.findIndex((level) => level >= end);
  if (k === 0) return frequenciesHz[0]!;
  return frequencyAt(k - (levelsDb[k]! - end) / (levelsDb[k]! - levelsDb[k - 1]!), frequenciesHz);
}

function frequencyAt(position: number, frequenciesHz: Float64Array): number {
  const k = Math.min(Math.floor(position), frequenciesHz.length - 2);
  return frequenciesHz[k]! * (frequenciesHz[k + 1]! / frequenciesHz[k]!) ** (position - k);
}

/** A value between points: the cubic through the two points on either side, at the ends of the grid the straight line. */
function valueAt(position: number, values: Float64Array): number {
  const k = Math.min(Math.floor(position), values.length - 2);
  const t = position - k;
  const [before, here, next, after] = [values[k - 1], values[k]!, values[k + 1]!, values[k + 2]];
  const straight = here + t * (next - here);
  if (before === undefined || after === undefined) return straight;
  const bend = (here - before) * (2 - t) + (next - here) * (2 * t - 1) - (after - next) * (1 + t);
  return straight + (t * (1 - t) * bend) / 6;
}

function phaseDifferenceAt(position: number, lower: FilterResponse, upper: FilterResponse): number {
  const k = Math.min(Math.floor(position), lower.re.length - 2);
  const here = differenceDeg(lower, upper, k);
  const turn = wrapDeg(differenceDeg(lower, upper, k + 1) - here);
  return wrapDeg(here + (position - k) * turn);
}

function differenceDeg(lower: FilterResponse, upper: FilterResponse, k: number): number {
  const re = lower.re[k]! * upper.re[k]! + lower.im[k]! * upper.im[k]!;
  const im = lower.im[k]! * upper.re[k]! - lower.re[k]! * upper.im[k]!;
  return (180 / Math.PI) * Math.atan2(im, re);
}

function ripple(
  lower: FilterResponse,
  upper: FilterResponse,
  sign: 1 | -1,
  { frequenciesHz, frequencyHz }: { readonly frequenciesHz: Float64Array; readonly frequencyHz: number },
): number {
  let largest = Number.NEGATIVE_INFINITY;
  let smallest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < frequenciesHz.length; k++) {
    if (Math.abs(Math.log2(frequenciesHz[k]! / frequencyHz)) > RIPPLE_OCTAVES) continue;
    const level = levelOf(Math.hypot(lower.re[k]! + sign * upper.re[k]!, lower.im[k]! + sign * upper.im[k]!));
    largest = Math.max(largest, level);
    smallest = Math.min(smallest, level);
  }
  return largest - smallest;
}
