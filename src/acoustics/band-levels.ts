import { meanBetween } from "../base/numeric/index.ts";
import { dbFromPower, powerFromDb } from "../base/units/index.ts";
import { type FractionalOctaveBand, thirdOctaveBands } from "./band-frequencies.ts";
import { checkLengths } from "./pink-noise.ts";

/** The level of one band. */
export interface BandLevel extends FractionalOctaveBand {
  readonly levelDb: number;
}

/**
 * Third-octave levels of a fine response in dB: in each band the mean of |H|² over ln f, as an analyzer reads pink noise
 * through the response. Between the given points power runs straight over ln f.
 * Band edges: IEC 61260-1:2014, equations 4 and 5, ideal (steep) band filters.
 *
 * @param frequenciesHz increasing; at least two.
 * @param magnitudeDb level in dB, one a frequency.
 * @param bands default: the 31 bands from 20 Hz to 20 kHz. A band that the frequencies cover in part is averaged over
 *   that part; one that they do not cover is left out.
 */
export function thirdOctaveLevels(
  frequenciesHz: ArrayLike<number>,
  magnitudeDb: ArrayLike<number>,
  bands: readonly FractionalOctaveBand[] = thirdOctaveBands(),
): readonly BandLevel[] {
  checkLengths(frequenciesHz, magnitudeDb);
  const logarithms = Float64Array.from(frequenciesHz, Math.log);
  const power = Float64Array.from(magnitudeDb, powerFromDb);
  return bands.flatMap((band) => {
    const mean = meanBetween(logarithms, power, Math.log(band.fromHz), Math.log(band.toHz));
    return mean === undefined ? [] : [{ ...band, levelDb: dbFromPower(mean) }];
  });
}
