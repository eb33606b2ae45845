import { frequencyGrid } from "../acoustics/index.ts";
import type { Configuration, EqBand } from "../model/index.ts";

/** The frequencies at which responses are compared, and how much of the spectrum each stands for. */
export interface ComparisonGrid {
  /** In Hz, increasing. */
  readonly frequenciesHz: Float64Array;
  /** Width of the part of the spectrum that each frequency stands for, in octaves. */
  readonly octaves: Float64Array;
  /** Index of the first weighted frequency (40 Hz nominal) and of the first one above (16 kHz nominal). */
  readonly bandStart: number;
  readonly bandEnd: number;
}

/** Exact mid-band frequencies of the 40 Hz and 16 kHz third octaves (IEC 61260-1). */
export const BAND_FROM_HZ = 1000 * 10 ** -1.4;
export const BAND_TO_HZ = 1000 * 10 ** 1.2;

/** A little beyond each end, so that rounding leaves the ends inside. */
const EDGE_SLACK = 1e-9;

/** Filters narrower than this (Q) could hide between the points of the grid. */
const NARROW_Q = 6;

/** Extra points nearer to each other than this ratio count as one. */
const NEAREST_RATIO = 2 ** (1 / 192);

/**
 * 1/24 octave from 20 Hz to 20 kHz, as far as both sample rates allow, with more points at filters of either
 * configuration that are too narrow for that.
 */
export function comparisonGrid(before: Configuration, after: Configuration): ComparisonGrid {
  const nyquistHz = Math.min(before.unit.sampleRateHz, after.unit.sampleRateHz) / 2;
  const base = frequencyGrid().filter((hz) => hz < nyquistHz);
  const first = base[0]!;
  const last = base.at(-1)!;
  const extra = [before, after]
    .flatMap(narrowPoints)
    .filter((hz) => hz > first && hz < last)
    .sort((a, b) => a - b);
  const frequenciesHz = merged(base, extra);
  const above = (limitHz: number) => {
    const at = frequenciesHz.findIndex((hz) => hz > limitHz);
    return at < 0 ? frequenciesHz.length : at;
  };
  return {
    frequenciesHz,
    octaves: octaveWidths(frequenciesHz),
    bandStart: above(BAND_FROM_HZ * (1 - EDGE_SLACK)),
    bandEnd: above(BAND_TO_HZ * (1 + EDGE_SLACK)),
  };
}

function narrowPoints({ equalizations, outputs }: Configuration): number[] {
  const bands = [
    ...equalizations.flatMap(({ channels }) => channels.flatMap(({ parametric }) => parametric ?? [])),
    ...outputs.flatMap(({ filters }) => filters),
  ];
  return bands.flatMap(pointsOf);
}

/** The center and both half-gain shoulders of a narrow filter; of a notch, whose center is silence, the shoulders. */
function pointsOf(band: EqBand): number[] {
  const q = "q" in band ? band.q : undefined;
  if (q === undefined || q < NARROW_Q || band.enabled === false) return [];
  const half = 2 ** (Math.asinh(1 / (2 * q)) / Math.LN2);
  const shoulders = [band.frequencyHz / half, band.frequencyHz * half];
  return band.kind === "notch" ? shoulders : [band.frequencyHz, ...shoulders];
}

/** Joins two increasing lists; points of the second that lie too near to a neighbour are left out. */
function merged(base: Float64Array, extra: readonly number[]): Float64Array {
  const result: number[] = [];
  let next = 0;
  for (const hz of base) {
    while (next < extra.length && extra[next]! < hz) {
      const candidate = extra[next++]!;
      const clear = candidate > result.at(-1)! * NEAREST_RATIO && candidate * NEAREST_RATIO < hz;
      if (clear) result.push(candidate);
    }
    result.push(hz);
  }
  return Float64Array.from(result);
}

/** Half the way to each neighbour (trapezoidal rule over the logarithm of the frequency). */
function octaveWidths(frequenciesHz: Float64Array): Float64Array {
  return frequenciesHz.map((_, k) => {
    const below = frequenciesHz[Math.max(0, k - 1)]!;
    const above = frequenciesHz[Math.min(frequenciesHz.length - 1, k + 1)]!;
    return Math.log2(above / below) / 2;
  });
}
