import { defaultGraphicQ, frequencyGrid, graphicCentersHz } from "../acoustics/index.ts";
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

/** Widths of the bands of graphic equalizers (Q), where the units say so. */
export interface GraphicQ {
  readonly before?: number | undefined;
  readonly after?: number | undefined;
}

/** Step of the grid in natural logarithms of the frequency. */
const STEP = Math.LN2 / 24;

/**
 * How far apart points may lie where a filter is sharp, in units of the half width of its sharpest part: an extreme that
 * falls in between then shows well enough to be looked for; see exactExtremes.
 */
const STEP_IN_WIDTHS = 0.6;

/** Beyond the sharpest part each point may be so much further from the center than the last. */
const WIDENING = 1.5;

/** Extra points nearer to each other than this ratio count as one. */
const NEAREST_RATIO = 2 ** (1 / 2000);

/**
 * 1/24 octave from 20 Hz to 20 kHz, as far as both sample rates allow. The bilinear transform makes all filters narrower
 * towards half the sample rate: there the points lie closer, 1/24 octave before the transform. More points are at filters
 * of either configuration that are too narrow for that.
 */
export function comparisonGrid(
  before: Configuration,
  after: Configuration,
  graphicQ: GraphicQ = {},
): ComparisonGrid {
  const rates = [before.unit.sampleRateHz, after.unit.sampleRateHz];
  const base = subdivided(
    frequencyGrid().filter((hz) => hz < Math.min(...rates) / 2),
    rates,
  );
  const first = base[0]!;
  const last = base.at(-1)!;
  const extra = [...narrowPoints(before, graphicQ.before), ...narrowPoints(after, graphicQ.after)]
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

/** How many times narrower a filter is at a frequency, on a logarithmic scale, than far below half the sample rate. */
function narrowing(hz: number, sampleRateHz: number): number {
  const angle = (2 * Math.PI * hz) / sampleRateHz;
  return angle / Math.sin(angle);
}

function subdivided(base: Float64Array, rates: readonly number[]): Float64Array {
  const points = Array.from(base).flatMap((hz, k) => {
    const next = base[k + 1];
    if (next === undefined) return [hz];
    const pieces = Math.ceil(Math.max(...rates.map((rate) => narrowing(next, rate))) - 0.5);
    return Array.from({ length: pieces }, (_, piece) => hz * (next / hz) ** (piece / pieces));
  });
  return Float64Array.from(points);
}

/** A resonance: where it lies, its Q, and by how much it raises or lowers, in dB. */
interface Resonance {
  readonly frequencyHz: number;
  readonly q: number;
  readonly gainDb: number;
  /** Whether its center is silence. */
  readonly silent: boolean;
}

function narrowPoints(
  { equalizations, outputs, unit }: Configuration,
  graphicQ: number | undefined,
): readonly number[] {
  const channels = equalizations.flatMap((set) => set.channels);
  const bands = [
    ...channels.flatMap(({ parametric }) => parametric ?? []),
    ...outputs.flatMap(({ filters }) => filters),
  ].flatMap(resonanceOf);
  const sliders = channels.flatMap(({ graphic }) =>
    graphic === undefined || graphic.enabled === false
      ? []
      : graphicCentersHz(graphic.layout).map((frequencyHz, index) => ({
          frequencyHz,
          q: graphicQ ?? defaultGraphicQ(graphic.layout),
          gainDb: graphic.gainsDb[index] ?? 0,
          silent: false,
        })),
  );
  return [...bands, ...sliders].flatMap((resonance) => pointsAt(resonance, unit.sampleRateHz));
}

function resonanceOf(band: EqBand): readonly Resonance[] {
  if (band.enabled === false || !("q" in band) || band.q === undefined) return [];
  const gainDb = "gainDb" in band ? band.gainDb : 0;
  return [{ frequencyHz: band.frequencyHz, q: band.q, gainDb, silent: band.kind === "notch" }];
}

/**
 * Points at a resonance that is too sharp for the grid, with u = Q(Ω/Ω0 − Ω0/Ω), Ω the frequency before the bilinear
 * transform: a peak of A² = 10^(dB/20) is (u² + A²)/(u² + 1/A²) in power, 1/A wide.
 */
function pointsAt({ frequencyHz, q, gainDb, silent }: Resonance, sampleRateHz: number): readonly number[] {
  const width = 10 ** (-Math.abs(gainDb) / 40);
  if (frequencyHz >= sampleRateHz / 2 || 2 * q * STEP <= STEP_IN_WIDTHS * width) return [];
  const center = Math.tan((Math.PI * frequencyHz) / sampleRateHz);
  const at = (u: number) => (Math.atan(center * Math.exp(Math.asinh(u / (2 * q)))) * sampleRateHz) / Math.PI;
  const points = silent ? [] : [frequencyHz];
  const steps = [1, 2];
  for (
    let step = 3;
    STEP_IN_WIDTHS * width * (step / WIDENING) * (WIDENING - 1) < 2 * q * STEP;
    step *= WIDENING
  ) {
    steps.push(step);
  }
  for (const step of steps) {
    const u = step * STEP_IN_WIDTHS * width;
    points.push(at(-u), at(u));
  }
  return points;
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
