import {
  amplitudeFromDb,
  dbFromAmplitude,
  dbFromPower,
  feetFromMetres,
  framesFromMs,
  metresFromFeet,
  metresFromMs,
  msFromFrames,
  msFromMetres,
  msFromSamples,
  octavesAbove,
  octavesBetween,
  powerFromDb,
  samplesFromMs,
} from "../../../base/units/index.ts";
import type { Conversion } from "../../../model/index.ts";

/** What of the configuration read so far conversions rest on. */
export interface Circumstances {
  readonly sampleRateHz?: number | undefined;
  readonly temperatureC?: number | undefined;
}

/** A pair of functions on numbers: of the export, of the configuration. NaN where there is no answer. */
export interface NumericPair {
  readonly toValue: (exported: number) => number;
  readonly toExport: (value: number) => number;
}

export type NumericConversion = Exclude<
  Conversion,
  { readonly kind: "text" } | { readonly kind: "choice" } | { readonly kind: "template" }
>;

const DEFAULT_FRAMES_PER_SECOND = 24;
const DEFAULT_REFERENCE_HZ = 1000;
/** Each pole of a filter: 20 lg 2 dB for a doubled frequency, 6 in everybody's mouth. */
const DB_PER_OCTAVE_AND_ORDER = 6;

/** The arithmetic of a conversion between numbers. */
export function numericPair(as: NumericConversion, known: Circumstances): NumericPair {
  switch (as.kind) {
    case "number":
      return linear(as.factor ?? 1, as.offset ?? 0);
    case "level":
      return levelPair(as.unit);
    case "time":
      return timePair(as, known);
    case "frequency":
      return frequencyPair(as);
    case "width":
      return as.unit === "q" ? SAME : { toValue: qFromOctaves, toExport: octavesFromQ };
    case "order":
      return as.unit === "order" ? SAME : parts(DB_PER_OCTAVE_AND_ORDER);
    case "length":
      return lengthPair(as.unit);
    case "table":
      return tablePair(as.points);
  }
}

const SAME: NumericPair = { toValue: (x) => x, toExport: (x) => x };

function linear(factor: number, offset = 0): NumericPair {
  return { toValue: (x) => x * factor + offset, toExport: (x) => (x - offset) / factor };
}

/** Division keeps -45 tenths exactly -4.5, where a factor of 0.1 would not. */
function parts(count: number): NumericPair {
  return { toValue: (x) => x / count, toExport: (x) => x * count };
}

function levelPair(unit: Extract<NumericConversion, { readonly kind: "level" }>["unit"]): NumericPair {
  switch (unit) {
    case "dB":
      return SAME;
    case "tenth-dB":
      return parts(10);
    case "hundredth-dB":
      return parts(100);
    case "ratio":
      return { toValue: (x) => (x > 0 ? dbFromAmplitude(x) : Number.NaN), toExport: amplitudeFromDb };
    case "percent":
      return {
        toValue: (x) => (x > 0 ? dbFromAmplitude(x / 100) : Number.NaN),
        toExport: (x) => amplitudeFromDb(x) * 100,
      };
    case "power-ratio":
      return { toValue: (x) => (x > 0 ? dbFromPower(x) : Number.NaN), toExport: powerFromDb };
  }
}

function timePair(
  as: Extract<NumericConversion, { readonly kind: "time" }>,
  known: Circumstances,
): NumericPair {
  const temperature = as.temperatureC ?? known.temperatureC;
  switch (as.unit) {
    case "ms":
      return SAME;
    case "s":
      return linear(1000);
    case "us":
      return parts(1000);
    case "samples": {
      const rate = as.sampleRateHz ?? known.sampleRateHz ?? Number.NaN;
      return { toValue: (x) => msFromSamples(x, rate), toExport: (x) => samplesFromMs(x, rate) };
    }
    case "frames": {
      const rate = as.framesPerSecond ?? DEFAULT_FRAMES_PER_SECOND;
      return { toValue: (x) => msFromFrames(x, rate), toExport: (x) => framesFromMs(x, rate) };
    }
    case "m":
      return { toValue: (x) => msFromMetres(x, temperature), toExport: (x) => metresFromMs(x, temperature) };
    case "ft":
      return {
        toValue: (x) => msFromMetres(metresFromFeet(x), temperature),
        toExport: (x) => feetFromMetres(metresFromMs(x, temperature)),
      };
  }
}

function frequencyPair(as: Extract<NumericConversion, { readonly kind: "frequency" }>): NumericPair {
  if (as.unit === "Hz") return SAME;
  if (as.unit === "kHz") return linear(1000);
  const reference = as.referenceHz ?? DEFAULT_REFERENCE_HZ;
  return { toValue: (x) => octavesAbove(reference, x), toExport: (x) => octavesBetween(reference, x) };
}

function lengthPair(unit: Extract<NumericConversion, { readonly kind: "length" }>["unit"]): NumericPair {
  switch (unit) {
    case "m":
      return SAME;
    case "cm":
      return parts(100);
    case "mm":
      return parts(1000);
    case "ft":
      return { toValue: metresFromFeet, toExport: feetFromMetres };
  }
}

/**
 * Q of a bandwidth of N octaves between the points 3 dB down: sqrt(2^N) / (2^N - 1), from the analogue prototype's
 * Q = f0 / (f2 - f1) with f1 * f2 = f0². Source: handbook formula, the same relation as 1/Q = 2 sinh(ln 2 / 2 * N) in
 * the Audio EQ Cookbook (W3C Working Group Note, 8 June 2021) without its frequency warping.
 */
export function qFromOctaves(octaves: number): number {
  return octaves > 0 ? Math.sqrt(2 ** octaves) / (2 ** octaves - 1) : Number.NaN;
}

/** Bandwidth in octaves of a Q: 2 asinh(1 / (2 Q)) / ln 2. Inverse of {@link qFromOctaves}. */
export function octavesFromQ(q: number): number {
  return q > 0 ? (2 * Math.asinh(1 / (2 * q))) / Math.LN2 : Number.NaN;
}

function tablePair(points: readonly { readonly export: number; readonly value: number }[]): NumericPair {
  return {
    toValue: (x) => between(points, "export", "value", x),
    toExport: (x) => between(points, "value", "export", x),
  };
}

type Point = { readonly export: number; readonly value: number };

function between(points: readonly Point[], from: keyof Point, to: keyof Point, x: number): number {
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const inside = (a[from] <= x && x <= b[from]) || (b[from] <= x && x <= a[from]);
    if (!inside) continue;
    if (x === b[from] || a[from] === b[from]) return b[to];
    return a[to] + ((b[to] - a[to]) * (x - a[from])) / (b[from] - a[from]);
  }
  return Number.NaN;
}
