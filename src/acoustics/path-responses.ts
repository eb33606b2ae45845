import { type ComplexArray, multiplyInto, scaleInto } from "../base/numeric/index.ts";
import { amplitudeFromDb } from "../base/units/index.ts";
import type { FrequencyAxis } from "./frequency-axis.ts";
import type { Path } from "./paths.ts";

/** Level of a path in dB at every frequency: filters and all gains. */
export function pathMagnitudeDb({ equalization, output, levelDb }: Path): Float64Array {
  const levels = new Float64Array(output.magnitudeDb.length);
  for (let k = 0; k < levels.length; k++) {
    levels[k] = equalization.magnitudeDb[k]! + output.magnitudeDb[k]! + levelDb;
  }
  return levels;
}

/** Phase of a path's filters alone in radians, in [−π, π]: without polarity and delay. */
export function pathFilterPhaseRad({ equalization, output }: Path): Float64Array {
  const phase = new Float64Array(output.re.length);
  for (let k = 0; k < phase.length; k++) {
    const a = equalization.re[k]!;
    const b = equalization.im[k]!;
    const c = output.re[k]!;
    const d = output.im[k]!;
    phase[k] = Math.atan2(a * d + b * c, a * c - b * d);
  }
  return phase;
}

/** Complex response of a path: filters, gains, polarity, delay. */
export function pathResponse(path: Path, axis: Pick<FrequencyAxis, "frequenciesHz">): ComplexArray {
  const { equalization, output } = path;
  const gain = amplitudeFromDb(path.levelDb) * (path.polarity === "inverted" ? -1 : 1);
  const response = delayedResponse(equalization, path.delayMs, axis);
  multiplyInto(response, output);
  scaleInto(response, gain);
  return response;
}

/**
 * A response with a pure delay behind it: H(f)·exp(−j2πf·τ), also of fractions of a sample.
 *
 * @param delayMs any finite number; negative is an advance.
 */
export function delayedResponse(
  { re, im }: ComplexArray,
  delayMs: number,
  { frequenciesHz }: Pick<FrequencyAxis, "frequenciesHz">,
): ComplexArray {
  const delayed = { re: re.slice(), im: im.slice() };
  if (delayMs === 0) return delayed;
  for (let k = 0; k < re.length; k++) {
    const angle = -2 * Math.PI * (frequenciesHz[k]! / 1000) * delayMs;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    delayed.re[k] = re[k]! * cos - im[k]! * sin;
    delayed.im[k] = re[k]! * sin + im[k]! * cos;
  }
  return delayed;
}
