import { type ComplexArray, complexArray } from "../numeric/index.ts";
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

/** Taps are taken in blocks: inside a block every tap has its own angle, from block to block one rotation is added. */
const BLOCK = 64;

/**
 * Complex response of FIR taps: H(f) = Σ h[n]·exp(−j2πf·n/fs). The delay that the taps have by themselves is part of it.
 * 1 when it is bypassed.
 *
 * @param place JSON Pointer of the FIR filter, for errors.
 * @throws BoothkeepError `acoustics.invalid-filter`: no tap, more than 4096, a tap that is NaN, infinite or beyond 1000.
 */
export function firResponse(fir: FirFilter, axis: FrequencyAxis, place: SettingPlace = ""): ComplexArray {
  const { frequenciesHz, sampleRateHz } = axis;
  if (fir.enabled === false) return complexArray(frequenciesHz.length, 1);
  checkTaps(fir.taps, place);
  const h = Float64Array.from(fir.taps);
  const re = new Float64Array(frequenciesHz.length);
  const im = new Float64Array(frequenciesHz.length);
  const cos = new Float64Array(BLOCK);
  const sin = new Float64Array(BLOCK);
  for (let k = 0; k < re.length; k++) {
    const omega = (2 * Math.PI * frequenciesHz[k]!) / sampleRateHz;
    for (let n = 0; n < Math.min(BLOCK, h.length); n++) {
      cos[n] = Math.cos(omega * n);
      sin[n] = Math.sin(omega * n);
    }
    let sumRe = 0;
    let sumIm = 0;
    for (let start = 0; start < h.length; start += BLOCK) {
      const count = Math.min(BLOCK, h.length - start);
      let blockRe = 0;
      let blockIm = 0;
      for (let n = 0; n < count; n++) {
        const tap = h[start + n]!;
        blockRe += tap * cos[n]!;
        blockIm -= tap * sin[n]!;
      }
      const c = Math.cos(omega * start);
      const s = Math.sin(omega * start);
      sumRe += blockRe * c + blockIm * s;
      sumIm += blockIm * c - blockRe * s;
    }
    re[k] = sumRe;
    im[k] = sumIm;
  }
  return { re, im };
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
