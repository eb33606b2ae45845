import {
  cascadeResponse,
  filterSections,
  frequencyAxis,
  graphicSections,
  magnitudeDb,
} from "../../acoustics/index.ts";
import type { RefitSource } from "./equalizer.ts";

const POINTS_PER_OCTAVE = 24;
/** 40.5 Hz and 16 kHz, the ends of the band in which responses are compared, as 24ths of an octave from 1 kHz. */
const FIRST = -111;
const LAST = 96;
/** Points nearer to half the sample rate than this part of it are left out. */
const HIGHEST_PART_OF_NYQUIST = 0.9;

/** 20 Hz and 20 kHz, the ends of what is heard, in the same steps. */
const FIRST_HEARD = -135;
const LAST_HEARD = 103;

/** The frequencies in Hz at which two units are compared: 40 Hz to 16 kHz in 1/24 octaves, as far as both go. */
export function refitFrequenciesHz(sampleRatesHz: readonly number[]): readonly number[] {
  return stepsHz(FIRST, LAST, sampleRatesHz);
}

/** The frequencies in Hz below and above those, from 20 Hz and up to 20 kHz. */
export function outsideFrequenciesHz(sampleRatesHz: readonly number[]): {
  readonly below: readonly number[];
  readonly above: readonly number[];
} {
  return {
    below: stepsHz(FIRST_HEARD, FIRST - 1, sampleRatesHz),
    above: stepsHz(LAST + 1, LAST_HEARD, sampleRatesHz),
  };
}

function stepsHz(first: number, last: number, sampleRatesHz: readonly number[]): readonly number[] {
  const highestHz = (HIGHEST_PART_OF_NYQUIST * Math.min(...sampleRatesHz)) / 2;
  return Array.from(
    { length: last - first + 1 },
    (_, k) => 1000 * 2 ** ((first + k) / POINTS_PER_OCTAVE),
  ).filter((frequencyHz) => frequencyHz <= highestHz);
}

/** Level in dB of an equalizer at some frequencies. */
export function equalizerLevelsDb(
  { graphic, graphicQ, filters, sampleRateHz }: RefitSource,
  frequenciesHz: readonly number[],
): Float64Array {
  const sections = [
    ...(graphic === undefined ? [] : graphicSections(graphic, sampleRateHz, { q: graphicQ })),
    ...filters.flatMap((filter) => filterSections(filter, sampleRateHz)),
  ];
  return magnitudeDb(cascadeResponse(sections, frequencyAxis(sampleRateHz, frequenciesHz)));
}

export interface RefitError {
  readonly rmsDb: number;
  readonly maxDb: number;
  readonly maxAtHz: number;
}

/** How far one curve is from another. */
export function refitError(
  levelsDb: Float64Array,
  wantedDb: Float64Array,
  frequenciesHz: readonly number[],
): RefitError {
  let sum = 0;
  let maxDb = 0;
  let maxAtHz = frequenciesHz[0]!;
  frequenciesHz.forEach((frequencyHz, k) => {
    const error = levelsDb[k]! - wantedDb[k]!;
    sum += error * error;
    if (Math.abs(error) > maxDb) {
      maxDb = Math.abs(error);
      maxAtHz = frequencyHz;
    }
  });
  return { rmsDb: Math.sqrt(sum / frequenciesHz.length), maxDb, maxAtHz };
}

/**
 * A filter of more Q is narrower than three of the frequencies that curves are compared at and could hide between them: a
 * fit uses none unless the source has one as narrow.
 */
export const NARROW_Q = 12;

/** The frequencies in Hz half-way between others, where what hides between those shows. */
export function midpointsHz(frequenciesHz: readonly number[]): readonly number[] {
  return frequenciesHz.slice(1).map((frequencyHz, k) => Math.sqrt(frequencyHz * frequenciesHz[k]!));
}

/** The error with the largest value of both: found at the frequencies that count, and between them. */
export function withLargest(error: RefitError, between: RefitError): RefitError {
  return Math.abs(between.maxDb) > Math.abs(error.maxDb)
    ? { rmsDb: error.rmsDb, maxDb: between.maxDb, maxAtHz: between.maxAtHz }
    : error;
}
