import { type ComplexArray, complexArray } from "../base/numeric/index.ts";
import type { FrequencyAxis } from "./frequency-axis.ts";
import { COMPUTABLE, invalidSetting, type SettingPlace } from "./limits.ts";

/** A finite impulse response at the unit's sample rate. */
export interface FirFilter {
  /** h[0], h[1], …: 1 to 4096 taps, each of magnitude 1000 (60 dB) at most. */
  readonly taps: readonly number[];
  /** false: bypassed. @defaultValue true */
  readonly enabled?: boolean | undefined;
}

const LARGEST_TAP = 1000;

/**
 * Taps are taken in blocks: inside a block every tap has its own rotation, and every block has one. So many taps need few
 * sines, and no rounding error runs along the taps.
 */
const BLOCK = 64;

/**
 * Complex response of FIR taps: H(f) = Σ h[n]·exp(−j2πf·n/fs). The delay that the taps have by themselves is part of it.
 * 1 when it is bypassed.
 *
 * @param place JSON Pointer of the FIR filter, for errors.
 * @throws BoothkeepError `acoustics.invalid-filter`: no tap, more than 4096, a tap that is NaN, infinite or beyond 1000.
 */
export function firResponse(fir: FirFilter, axis: FrequencyAxis, place: SettingPlace = ""): ComplexArray {
  const points = axis.frequenciesHz.length;
  if (fir.enabled === false) return complexArray(points, 1);
  checkTaps(fir.taps, place);
  const blocks = Math.ceil(fir.taps.length / BLOCK);
  const taps = new Float64Array(blocks * BLOCK);
  taps.set(fir.taps);
  const { inside, between } = rotationsOf(axis);
  const { re, im } = complexArray(points);
  for (let k = 0; k < points; k++) {
    const row = k * BLOCK;
    let sumRe = 0;
    let sumIm = 0;
    for (let block = 0; block < blocks; block++) {
      let blockRe = 0;
      let blockIm = 0;
      for (let n = 0; n < BLOCK; n++) {
        const tap = taps[block * BLOCK + n]!;
        blockRe += tap * inside.re[row + n]!;
        blockIm += tap * inside.im[row + n]!;
      }
      const cos = between.re[row + block]!;
      const sin = between.im[row + block]!;
      sumRe += blockRe * cos - blockIm * sin;
      sumIm += blockRe * sin + blockIm * cos;
    }
    re[k] = sumRe;
    im[k] = sumIm;
  }
  return { re, im };
}

/** The rotations of one axis, BLOCK a frequency: of each tap inside a block, and of each block. */
interface Rotations {
  readonly inside: ComplexArray;
  readonly between: ComplexArray;
}

/** Kept as long as the axis they belong to. */
const knownRotations = new WeakMap<FrequencyAxis, Rotations>();

function rotationsOf(axis: FrequencyAxis): Rotations {
  const known = knownRotations.get(axis);
  if (known !== undefined) return known;
  const rotations = { inside: rotationsBy(1, axis), between: rotationsBy(BLOCK, axis) };
  knownRotations.set(axis, rotations);
  return rotations;
}

/** exp(−jω·n·samples) for n = 0 … BLOCK − 1 at every frequency. */
function rotationsBy(samples: number, { frequenciesHz, sampleRateHz }: FrequencyAxis): ComplexArray {
  const rotations = complexArray(frequenciesHz.length * BLOCK);
  frequenciesHz.forEach((hz, k) => {
    const omega = (2 * Math.PI * hz) / sampleRateHz;
    for (let n = 0; n < BLOCK; n++) {
      rotations.re[k * BLOCK + n] = Math.cos(omega * n * samples);
      rotations.im[k * BLOCK + n] = -Math.sin(omega * n * samples);
    }
  });
  return rotations;
}

function checkTaps(taps: readonly number[], place: SettingPlace): void {
  const { min, max } = COMPUTABLE.firTaps;
  if (taps.length < min || taps.length > max) {
    throw invalidSetting(`A FIR filter has ${min} to ${max} taps, not ${taps.length}.`, `${place}/taps`, {
      value: taps.length,
      min,
      max,
    });
  }
  taps.forEach((tap, n) => {
    if (!(Math.abs(tap) <= LARGEST_TAP)) {
      throw invalidSetting(
        `A tap is ${tap}; its magnitude must not exceed ${LARGEST_TAP}.`,
        `${place}/taps/${n}`,
        {
          value: tap,
        },
      );
    }
  });
}
