import { BoothkeepError } from "../base/errors/index.ts";
import { OCTAVE_RATIO, REFERENCE_FREQUENCY_HZ } from "./band-frequencies.ts";
import { checkNumber } from "./limits.ts";

/** Which frequencies: equal steps of a fraction of an octave. */
export interface FrequencyGridOptions {
  /** Nominal first frequency in Hz, moved to the nearest step. @defaultValue 20 */
  readonly fromHz?: number;
  /** Nominal last frequency in Hz, moved to the nearest step. @defaultValue 20000 */
  readonly toHz?: number;
  /** Steps to the octave, from 1 to 1000. @defaultValue 24 */
  readonly pointsPerOctave?: number;
  /** Only frequencies below this one, in Hz: half of the lowest sample rate that is to be compared. */
  readonly belowHz?: number | undefined;
}

/**
 * Frequencies in Hz in equal fractions of an octave through 1 kHz: 1000 · G^(k/n), G = 10^(3/10) (the base-ten octave of
 * IEC 61260-1, so that with n = 3, 6, 12, 24 … every third-octave mid-band frequency is one of them).
 * The default, 1/24 octave from 20 Hz to 20 kHz, has 241 points, from 19.95 Hz to 19 953 Hz.
 *
 * @throws BoothkeepError `acoustics.invalid-grid`
 */
export function frequencyGrid(options: FrequencyGridOptions = {}): Float64Array {
  const { fromHz = 20, toHz = 20_000, pointsPerOctave = 24, belowHz = Number.POSITIVE_INFINITY } = options;
  if (
    !(
      fromHz > 0 &&
      toHz >= fromHz &&
      Number.isFinite(toHz) &&
      pointsPerOctave >= 1 &&
      pointsPerOctave <= 1000
    )
  ) {
    throw invalidGrid(
      `There is no grid from ${fromHz} Hz to ${toHz} Hz with ${pointsPerOctave} points an octave.`,
    );
  }
  const stepOf = (hz: number) =>
    Math.round((pointsPerOctave * Math.log(hz / REFERENCE_FREQUENCY_HZ)) / Math.log(OCTAVE_RATIO));
  const first = stepOf(fromHz);
  const count = stepOf(toHz) - first + 1;
  return Float64Array.from(
    { length: count },
    (_, k) => REFERENCE_FREQUENCY_HZ * 10 ** ((0.3 * (first + k)) / pointsPerOctave),
  ).filter((hz) => hz < belowHz);
}

/**
 * Frequencies at one sample rate, with what every filter needs of them. Made once, used for any number of filters.
 *
 * The bilinear transform makes a digital filter a rational function of s = j·tan θ with θ = πf/fs. Multiplied through by
 * cos²θ, a second-order section only needs cos²θ, cos θ·sin θ and sin²θ: no cancellation at 10 Hz and 192 kHz, and no
 * infinity at half the sample rate.
 */
export interface FrequencyAxis {
  readonly sampleRateHz: number;
  /** In Hz, increasing, above 0 and at most half the sample rate. */
  readonly frequenciesHz: Float64Array;
  readonly cosSquared: Float64Array;
  readonly cosSin: Float64Array;
  readonly sinSquared: Float64Array;
}

/**
 * Prepares frequencies for one sample rate.
 *
 * @param sampleRateHz from 32 kHz to 192 kHz.
 * @param frequenciesHz increasing, above 0 and below half the sample rate; default: {@link frequencyGrid}, as far as it
 *   lies below half the sample rate.
 * @throws BoothkeepError `acoustics.invalid-filter` for a sample rate outside the range, `acoustics.invalid-grid` for
 *   frequencies that are none, do not increase, or lie at or above half the sample rate.
 * @example
 * const axis = frequencyAxis(48_000);
 */
export function frequencyAxis(sampleRateHz: number, frequenciesHz?: ArrayLike<number>): FrequencyAxis {
  checkNumber("sampleRateHz", sampleRateHz, "/sampleRateHz");
  const nyquistHz = sampleRateHz / 2;
  const frequencies = Float64Array.from(frequenciesHz ?? frequencyGrid({ belowHz: nyquistHz }));
  let previousHz = 0;
  for (const hz of frequencies) {
    if (!(hz > previousHz && hz < nyquistHz)) {
      throw invalidGrid(
        `${hz} Hz cannot follow ${previousHz} Hz: frequencies must increase and lie above 0 and below ${nyquistHz} Hz.`,
      );
    }
    previousHz = hz;
  }
  const axis = {
    sampleRateHz,
    frequenciesHz: frequencies,
    cosSquared: new Float64Array(frequencies.length),
    cosSin: new Float64Array(frequencies.length),
    sinSquared: new Float64Array(frequencies.length),
  };
  for (let k = 0; k < frequencies.length; k++) {
    const cos = Math.cos((Math.PI * frequencies[k]!) / sampleRateHz);
    const sin = Math.sin((Math.PI * frequencies[k]!) / sampleRateHz);
    axis.cosSquared[k] = cos * cos;
    axis.cosSin[k] = cos * sin;
    axis.sinSquared[k] = sin * sin;
  }
  return axis;
}

function invalidGrid(what: string): BoothkeepError {
  return new BoothkeepError("acoustics.invalid-grid", what, {
    next: "Give frequencies above 0, increasing, and below half the sample rate.",
  });
}
