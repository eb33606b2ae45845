import { describe, expect, it } from "vitest";
import {
  cascadeResponse,
  digitalCoefficients,
  filterSections,
  frequencyAxis,
} from "../../src/acoustics/index.ts";
import { type BiquadCase, filterOf, levelsDb, readReference, Worst } from "./reference.ts";

// Source: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), computed with SciPy; tests/reference/README.md.
const reference = readReference<{ frequenciesHz: number[]; cases: BiquadCase[] }>("biquad-response");

describe("sections of the Audio EQ Cookbook", () => {
  it.each(reference.cases)("$id: coefficients", (c) => {
    const sections = filterSections(filterOf(c), c.sampleRateHz);
    expect(sections).toHaveLength(1);
    const { b, a } = digitalCoefficients(sections[0]!);
    for (let k = 0; k < 3; k++) {
      expect(Math.abs(b[k]! - c.b[k]!)).toBeLessThan(1e-13);
      expect(Math.abs(a[k]! - c.a[k]!)).toBeLessThan(1e-13);
    }
  });

  it("responds as the table says within 6e-9 dB and 6e-10 rad (the table has ten digits)", () => {
    const worst = new Worst();
    for (const c of reference.cases) {
      const axis = frequencyAxis(c.sampleRateHz, reference.frequenciesHz);
      worst.see(cascadeResponse(filterSections(filterOf(c), c.sampleRateHz), axis), c);
    }
    expect(reference.cases).toHaveLength(20);
    expect(worst.magnitudeDb).toBeLessThan(6e-9);
    expect(worst.phaseRad).toBeLessThan(6e-10);
  });

  it.each(reference.cases)("$id: levels known by hand", (c) => {
    const axis = frequencyAxis(c.sampleRateHz, [1e-6, c.frequencyHz, c.sampleRateHz / 2 - 1e-6]);
    const levels = levelsDb(cascadeResponse(filterSections(filterOf(c), c.sampleRateHz), axis));
    [c.known.dcDb, c.known.f0Db, c.known.nyquistDb].forEach((known, k) => {
      if (known === null) expect(levels[k]).toBeLessThan(-200);
      else expect(levels[k]).toBeCloseTo(known, 8);
    });
  });
});
