import { type ComplexArray, complexArray, multiplyInto } from "../base/numeric/index.ts";

/** Levels never read below this: a response of exactly 0 (the center of a notch) stays a finite number. */
export const SILENCE_DB = -400;

const SILENCE = 10 ** (SILENCE_DB / 20);
const SILENCE_POWER = SILENCE * SILENCE;

/** 20 lg|amplitude| in dB, not below −400 dB. */
export function levelOf(amplitude: number): number {
  return 20 * Math.log10(Math.max(SILENCE, Math.abs(amplitude)));
}

/** A complex response H(f) with its level, one value a frequency. */
export interface FilterResponse extends ComplexArray {
  /** 20 lg|H| in dB, not below −400 dB. */
  readonly magnitudeDb: Float64Array;
}

/** A complex response with its level worked out. */
export function filterResponse({ re, im }: ComplexArray): FilterResponse {
  return { re, im, magnitudeDb: magnitudeDb({ re, im }) };
}

/** 20 lg|H| in dB at every frequency, not below −400 dB. */
export function magnitudeDb({ re, im }: ComplexArray): Float64Array {
  const levels = new Float64Array(re.length);
  for (let k = 0; k < levels.length; k++) {
    const power = re[k]! * re[k]! + im[k]! * im[k]!;
    // The square of an amplitude beyond 3000 dB does not fit into a double.
    levels[k] =
      power < Number.POSITIVE_INFINITY
        ? 10 * Math.log10(Math.max(SILENCE_POWER, power))
        : levelOf(Math.hypot(re[k]!, im[k]!));
  }
  return levels;
}

/** No filter: 1 at every frequency. */
export function flatResponse(points: number): FilterResponse {
  return { ...complexArray(points, 1), magnitudeDb: new Float64Array(points) };
}

/** Filters one after the other. */
export function inSeries(first: ComplexArray, second: ComplexArray): FilterResponse {
  const product = { re: first.re.slice(), im: first.im.slice() };
  multiplyInto(product, second);
  return filterResponse(product);
}
