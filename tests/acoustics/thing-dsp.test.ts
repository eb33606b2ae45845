import * as dsp from "@thi.ng/dsp";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  cascadeResponse,
  digitalCoefficients,
  filterSections,
  firResponse,
  frequencyAxis,
  type ParametricFilter,
} from "../../src/acoustics/index.ts";

/**
 * Live check against @thi.ng/dsp, an independent general-purpose library (Apache-2.0). It writes the same filters with
 * other parameters:
 *
 * - frequencies as parts of the sample rate;
 * - peaking by the bandwidth of the poles (boost) or zeros (cut): its Q is the Cookbook's Q times A = 10^(|gain|/40);
 * - shelves by the corner of the poles (boost) or zeros (cut), always with slope 1: its tan(πf) is the Cookbook's divided
 *   (low shelf) or multiplied (high shelf) by √A.
 */
const SAMPLE_RATE_HZ = 48_000;

interface Settings {
  readonly frequencyHz: number;
  readonly gainDb: number;
  readonly q: number;
}

function movedCorner(frequencyHz: number, factor: number): number {
  return Math.atan(Math.tan((Math.PI * frequencyHz) / SAMPLE_RATE_HZ) * factor) / Math.PI;
}

const rootA = (gainDb: number) => 10 ** (Math.abs(gainDb) / 80);

const PAIRS: Readonly<
  Record<string, { ours(s: Settings): ParametricFilter; theirs(s: Settings): dsp.Biquad }>
> = {
  peaking: {
    ours: (s) => ({ kind: "peaking", ...s }),
    theirs: (s) => dsp.biquadPeak(s.frequencyHz / SAMPLE_RATE_HZ, s.q * rootA(s.gainDb) ** 2, s.gainDb),
  },
  "low-shelf": {
    ours: ({ frequencyHz, gainDb }) => ({ kind: "low-shelf", frequencyHz, gainDb, slope: 1 }),
    theirs: (s) => dsp.biquadLoShelf(movedCorner(s.frequencyHz, 1 / rootA(s.gainDb)), s.gainDb),
  },
  "high-shelf": {
    ours: ({ frequencyHz, gainDb }) => ({ kind: "high-shelf", frequencyHz, gainDb, slope: 1 }),
    theirs: (s) => dsp.biquadHiShelf(movedCorner(s.frequencyHz, rootA(s.gainDb)), s.gainDb),
  },
  "low-pass": {
    ours: ({ frequencyHz, q }) => ({ kind: "low-pass", frequencyHz, q }),
    theirs: (s) => dsp.biquadLP(s.frequencyHz / SAMPLE_RATE_HZ, s.q),
  },
  "high-pass": {
    ours: ({ frequencyHz, q }) => ({ kind: "high-pass", frequencyHz, q }),
    theirs: (s) => dsp.biquadHP(s.frequencyHz / SAMPLE_RATE_HZ, s.q),
  },
  "band-pass": {
    ours: ({ frequencyHz, q }) => ({ kind: "band-pass", frequencyHz, q }),
    theirs: (s) => dsp.biquadBP(s.frequencyHz / SAMPLE_RATE_HZ, s.q),
  },
  notch: {
    ours: ({ frequencyHz, q }) => ({ kind: "notch", frequencyHz, q }),
    theirs: (s) => dsp.biquadNotch(s.frequencyHz / SAMPLE_RATE_HZ, s.q),
  },
};

const settings = fc.record({
  frequencyHz: fc.double({ min: Math.log(200), max: Math.log(15_000), noNaN: true }).map(Math.exp),
  gainDb: fc.double({ min: -18, max: 18, noNaN: true }),
  q: fc.double({ min: 0.2, max: 12, noNaN: true }),
});

describe("@thi.ng/dsp, live", () => {
  it.each(Object.entries(PAIRS))("has the same coefficients and levels: %s", (_, { ours, theirs }) => {
    fc.assert(
      fc.property(settings, (s) => {
        const sections = filterSections(ours(s), SAMPLE_RATE_HZ);
        const { b, a } = digitalCoefficients(sections[0]!);
        const { zeroes, poles } = theirs(s).filterCoeffs();
        for (let k = 0; k < 3; k++) {
          expect(Math.abs(b[k]! - zeroes[k]!)).toBeLessThan(1e-11);
          expect(Math.abs(a[k]! - poles[k]!)).toBeLessThan(1e-11);
        }
        for (const hz of [50, 700, 3000, 12_000]) {
          const { re, im } = cascadeResponse(sections, frequencyAxis(SAMPLE_RATE_HZ, [hz]));
          const amplitude = dsp.filterResponseRaw(zeroes, poles, hz / SAMPLE_RATE_HZ, false).mag;
          expect(Math.abs(Math.hypot(re[0]!, im[0]!) - amplitude)).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 50 },
    );
  });

  it("runs the same first-order all-pass in time", () => {
    fc.assert(
      fc.property(settings, ({ frequencyHz }) => {
        const filter = dsp.allpass(frequencyHz / SAMPLE_RATE_HZ);
        const taps = Array.from({ length: 4096 }, (_, n) => filter.next(n === 0 ? 1 : 0));
        const axis = frequencyAxis(SAMPLE_RATE_HZ);
        const theirs = firResponse({ taps }, axis);
        const ours = cascadeResponse(
          filterSections({ kind: "all-pass", order: 1, frequencyHz }, SAMPLE_RATE_HZ),
          axis,
        );
        ours.re.forEach((re, k) => {
          expect(Math.hypot(re - theirs.re[k]!, ours.im[k]! - theirs.im[k]!)).toBeLessThan(1e-10);
        });
      }),
      { numRuns: 10 },
    );
  });
});
