/** The octave ratio of IEC 61260-1:2014 (equation 1): G = 10^(3/10). */
export const OCTAVE_RATIO = 10 ** 0.3;

/** The reference frequency of IEC 61260-1:2014 in Hz. */
export const REFERENCE_FREQUENCY_HZ = 1000;

/** A band of frequencies with exact edges. */
export interface FrequencyBand {
  readonly fromHz: number;
  readonly toHz: number;
}

/** A fractional-octave band of IEC 61260-1:2014. */
export interface FractionalOctaveBand extends FrequencyBand {
  /** x of the standard: 0 at 1 kHz, counted upwards. */
  readonly index: number;
  /** Exact mid-band frequency in Hz: 1000 · G^(x/b) (equation 2, odd b). */
  readonly centerHz: number;
}

/** Third-octave mid-band frequency in Hz: 1000 · 10^(x/10). Source: IEC 61260-1:2014, equations 1 and 2. */
export function thirdOctaveCenterHz(index: number): number {
  return REFERENCE_FREQUENCY_HZ * 10 ** (index / 10);
}

/**
 * A third-octave band with its edges f·G^(±1/6). Source: IEC 61260-1:2014, equations 1, 2, 4 and 5.
 *
 * @param index x of the standard: −17 is 20 Hz, 0 is 1 kHz, 13 is 20 kHz.
 */
export function thirdOctaveBand(index: number): FractionalOctaveBand {
  return {
    index,
    centerHz: thirdOctaveCenterHz(index),
    fromHz: REFERENCE_FREQUENCY_HZ * 10 ** ((2 * index - 1) / 20),
    toHz: REFERENCE_FREQUENCY_HZ * 10 ** ((2 * index + 1) / 20),
  };
}

/** The third-octave bands from one nominal frequency to another, both included. @defaultValue 20 Hz to 20 kHz, 31 bands */
export function thirdOctaveBands(fromHz = 20, toHz = 20_000): readonly FractionalOctaveBand[] {
  const first = Math.round(10 * Math.log10(fromHz / REFERENCE_FREQUENCY_HZ));
  const last = Math.round(10 * Math.log10(toHz / REFERENCE_FREQUENCY_HZ));
  return Array.from({ length: last - first + 1 }, (_, k) => thirdOctaveBand(first + k));
}

/** The preferred numbers of one decade (ISO 266:1997, series R10). */
const R10 = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8] as const;

/** The nominal (printed) frequency of a third-octave band in Hz: 31.5, 40, 50 … Source: ISO 266:1997, series R10. */
export function nominalThirdOctaveHz(index: number): number {
  const decade = Math.floor(index / 10);
  return Number((R10[index - 10 * decade]! * 10 ** (decade + 3)).toPrecision(3));
}
