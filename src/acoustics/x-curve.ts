import { nominalThirdOctaveHz, thirdOctaveCenterHz } from "./band-frequencies.ts";

/** The slopes of a target curve above its hinge, in dB an octave. */
export interface XCurveSlopes {
  /** From 2 kHz to 10 kHz. */
  readonly middleDbPerOctave: number;
  /** Above 10 kHz. */
  readonly highDbPerOctave: number;
}

const STANDARD: XCurveSlopes = { middleDbPerOctave: -3, highDbPerOctave: -6 };
const LOW_HZ = 63;
const HINGE_HZ = 2000;
const HIGH_HZ = 10_000;

/** Seats and slope from 2 kHz to 10 kHz; the slope above is twice as steep. */
const MIDDLE_SLOPES_BY_SEATS = [
  [30, -2],
  [150, -2.5],
  [500, -3],
  [1000, -3.5],
  [1500, -4],
  [2000, -4.5],
] as const;

/**
 * The X-curve in dB: −3 dB an octave below 63 Hz, 0 dB to 2 kHz, −3 dB an octave to 10 kHz, −6 dB an octave above.
 * Source: SMPTE ST 202:2010 / ISO 2969:2015 through public transcriptions (63 Hz to 20 kHz); below 63 Hz from memory. The
 * standard's tolerance could not be verified: a deviation is advice, not an error.
 *
 * @param slopes other slopes, for a room of another size.
 */
export function xCurveDb(frequencyHz: number, slopes: XCurveSlopes = STANDARD): number {
  if (frequencyHz < LOW_HZ) return -3 * Math.log2(LOW_HZ / frequencyHz);
  if (frequencyHz <= HINGE_HZ) return 0;
  const middle = Math.min(frequencyHz, HIGH_HZ);
  const high = Math.max(frequencyHz, HIGH_HZ);
  return (
    slopes.middleDbPerOctave * Math.log2(middle / HINGE_HZ) +
    slopes.highDbPerOctave * Math.log2(high / HIGH_HZ)
  );
}

/**
 * The slopes for a number of seats: those of the nearest listed number (30, 150, 500, 1000, 1500, 2000), in ratio.
 * Source: one public secondary source that attributes them to the standard; not verified. ISO 2969 itself is for rooms
 * above 125 m³.
 */
export function xCurveSlopes(seats: number): XCurveSlopes {
  const distance = (listed: number) => Math.abs(Math.log(Math.max(1, seats) / listed));
  const [, middleDbPerOctave] = MIDDLE_SLOPES_BY_SEATS.reduce((best, entry) =>
    distance(entry[0]) < distance(best[0]) ? entry : best,
  );
  return { middleDbPerOctave, highDbPerOctave: 2 * middleDbPerOctave };
}

/** The third octaves that a calibration keeps: 40 Hz to 16 kHz, band numbers of IEC 61260-1 from the one at 1 kHz. */
export const CALIBRATION_BANDS = { first: -14, last: 12 } as const;

/** The third octaves that are held against the curve: 63 Hz to 12.5 kHz. Common practice, no source. */
const JUDGED = { first: -12, last: 11 } as const;

/**
 * The tolerance of the X-curve in dB, either way. From memory: the standard's table, which widens at the ends, could not be
 * read. What lies outside is worth a look, and no fault by itself.
 */
export const X_CURVE_TOLERANCE_DB = 3;

/** A measured third octave beside the X-curve. */
export interface XCurveDeviation {
  /** Band number of IEC 61260-1: 0 is 1 kHz. */
  readonly band: number;
  readonly frequencyHz: number;
  /** As it is printed: 1250 for 1258.9 Hz. */
  readonly nominalHz: number;
  readonly measuredDb: number;
  readonly targetDb: number;
  /** Measured less target. */
  readonly deviationDb: number;
  /** Whether the band counts: 63 Hz to 12.5 kHz. */
  readonly judged: boolean;
}

/**
 * Measured third octaves of a calibration beside the X-curve.
 *
 * @param thirdOctavesDb 27 levels in dB, 40 Hz to 16 kHz, relative to the mean of 500 Hz to 2 kHz, where the curve is 0 dB
 */
export function xCurveDeviations(
  thirdOctavesDb: readonly number[],
  slopes: XCurveSlopes = STANDARD,
): readonly XCurveDeviation[] {
  return thirdOctavesDb.map((measuredDb, k) => {
    const band = CALIBRATION_BANDS.first + k;
    const frequencyHz = thirdOctaveCenterHz(band);
    const targetDb = xCurveDb(frequencyHz, slopes);
    const judged = band >= JUDGED.first && band <= JUDGED.last;
    const nominalHz = nominalThirdOctaveHz(band);
    return { band, frequencyHz, nominalHz, measuredDb, targetDb, deviationDb: measuredDb - targetDb, judged };
  });
}
