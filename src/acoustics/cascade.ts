import type { ComplexArray } from "../base/numeric/index.ts";
import type { FrequencyAxis } from "./frequency-axis.ts";
import type { Section } from "./section.ts";

const PER_SECTION = 6;

/** So many sections are multiplied out before one division: far from over- and underflow, few divisions. */
const SECTIONS_A_DIVISION = 8;

/**
 * Complex response of sections in cascade: the product of their {@link Section} responses. No sections give 1.
 *
 * @param sections in any order; the order changes the result only by rounding.
 * @returns re and im, one value a frequency of the axis.
 */
export function cascadeResponse(sections: readonly Section[], axis: FrequencyAxis): ComplexArray {
  const { cosSquared, cosSin, sinSquared } = axis;
  const points = cosSquared.length;
  const packed = pack(sections);
  const re = new Float64Array(points).fill(1);
  const im = new Float64Array(points);
  for (let start = 0; start < packed.length; start += PER_SECTION * SECTIONS_A_DIVISION) {
    const end = Math.min(packed.length, start + PER_SECTION * SECTIONS_A_DIVISION);
    for (let k = 0; k < points; k++) {
      const cc = cosSquared[k]!;
      const cs = cosSin[k]!;
      const ss = sinSquared[k]!;
      let nRe = re[k]!;
      let nIm = im[k]!;
      let dRe = 1;
      let dIm = 0;
      for (let c = start; c < end; c += PER_SECTION) {
        const bRe = packed[c]! * cc - packed[c + 2]! * ss;
        const bIm = packed[c + 1]! * cs;
        const aRe = packed[c + 3]! * cc - packed[c + 5]! * ss;
        const aIm = packed[c + 4]! * cs;
        const n = nRe * bRe - nIm * bIm;
        nIm = nRe * bIm + nIm * bRe;
        nRe = n;
        const d = dRe * aRe - dIm * aIm;
        dIm = dRe * aIm + dIm * aRe;
        dRe = d;
      }
      const scale = 1 / (dRe * dRe + dIm * dIm);
      re[k] = (nRe * dRe + nIm * dIm) * scale;
      im[k] = (nIm * dRe - nRe * dIm) * scale;
    }
  }
  return { re, im };
}

/**
 * Group delay of sections in cascade in ms: −dφ/dω, each section by its exact derivative. Where a section's response is
 * exactly 0 (the center of a notch) its phase jumps and its zeros count as no delay.
 */
export function cascadeGroupDelayMs(sections: readonly Section[], axis: FrequencyAxis): Float64Array {
  const { cosSquared, cosSin, sinSquared } = axis;
  const delayMs = new Float64Array(cosSquared.length);
  const msPerRadian = 1000 / (2 * axis.sampleRateHz);
  for (const { b0, b1, b2, a0, a1, a2 } of sections) {
    for (let k = 0; k < delayMs.length; k++) {
      const cc = cosSquared[k]!;
      const cs = cosSin[k]!;
      const ss = sinSquared[k]!;
      delayMs[k] =
        delayMs[k]! + msPerRadian * (angleSlope(a0, a1, a2, cc, cs, ss) - angleSlope(b0, b1, b2, cc, cs, ss));
    }
  }
  return delayMs;
}

/** d/dθ of the angle of c0·cos²θ + j·c1·cosθ·sinθ − c2·sin²θ. */
function angleSlope(c0: number, c1: number, c2: number, cc: number, cs: number, ss: number): number {
  const re = c0 * cc - c2 * ss;
  const im = c1 * cs;
  const power = re * re + im * im;
  if (power === 0) return 0;
  return (re * c1 * (cc - ss) + im * 2 * (c0 + c2) * cs) / power;
}

function pack(sections: readonly Section[]): Float64Array {
  const packed = new Float64Array(sections.length * PER_SECTION);
  sections.forEach((s, i) => {
    packed.set([s.b0, s.b1, s.b2, s.a0, s.a1, s.a2], i * PER_SECTION);
  });
  return packed;
}
