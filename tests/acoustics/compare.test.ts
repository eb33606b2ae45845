import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  acousticResponses,
  type ComparableResponse,
  cascadeResponse,
  comparablePath,
  compareResponses,
  crossoverSections,
  delayedResponse,
  estimateDelayMs,
  filterSections,
  firResponse,
  frequencyAxis,
  frequencyGrid,
  magnitudeDb,
} from "../../src/acoustics/index.ts";
import { type ComplexArray, phaseOf } from "../../src/base/numeric/index.ts";
import { EXAMPLE } from "./example-configuration.ts";

const axis = frequencyAxis(48_000);
const { frequenciesHz } = axis;
const bass = cascadeResponse(
  crossoverSections({ family: "linkwitz-riley", order: 4, frequencyHz: 120 }, "low-pass", 48_000),
  axis,
);
const peak = cascadeResponse(
  filterSections({ kind: "peaking", frequencyHz: 1000, gainDb: 6, q: 2 }, 48_000),
  axis,
);

function comparable(response: ComplexArray, rest: Partial<ComparableResponse> = {}): ComparableResponse {
  return { frequenciesHz, magnitudeDb: magnitudeDb(response), phaseRad: phaseOf(response), ...rest };
}

const flat = comparable(firResponse({ taps: [1] }, axis));

describe("comparison of two responses", () => {
  it("finds nothing between equal ones", () => {
    const result = compareResponses(comparable(peak), comparable(peak));
    expect(result).toMatchObject({ levelOffsetDb: 0, maxDb: 0, rmsDb: 0, delayMs: 0, polarity: "same" });
    expect(result.phase).toMatchObject({ maxDeg: 0, rmsDeg: 0 });
  });

  it("names the largest deviation with its sign and frequency", () => {
    const raised = compareResponses(flat, comparable(peak));
    expect(raised.maxDb).toBeCloseTo(6, 10);
    expect(raised.maxAtHz).toBeCloseTo(1000, 9);
    expect(compareResponses(comparable(peak), flat).maxDb).toBeCloseTo(-6, 10);
  });

  it("gives the root mean square over ln f", () => {
    // A step of 2 dB over the upper half of the band (in ln f) has rms 2/√2 and mean 1.
    const step = frequenciesHz.map((_, k) => (k > 120 ? 2 : k === 120 ? 1 : 0));
    const result = compareResponses(flat, { frequenciesHz, magnitudeDb: step });
    expect(result.rmsDb).toBeCloseTo(Math.sqrt(2), 2);
    expect(result.levelOffsetDb).toBeCloseTo(1, 6);
    const removed = compareResponses(flat, { frequenciesHz, magnitudeDb: step }, { level: "removed" });
    expect(removed.rmsDb).toBeCloseTo(1, 2);
    expect(Math.abs(removed.maxDb)).toBeCloseTo(1, 6);
  });

  it("removes a level offset or keeps it, and reports it both ways", () => {
    const louder = comparable(peak, { magnitudeDb: magnitudeDb(peak).map((db) => db + 2.5) });
    expect(compareResponses(comparable(peak), louder)).toMatchObject({ maxDb: expect.closeTo(2.5, 9) });
    const removed = compareResponses(comparable(peak), louder, { level: "removed" });
    expect(removed.levelOffsetDb).toBeCloseTo(2.5, 9);
    expect(Math.abs(removed.maxDb)).toBeLessThan(1e-9);
    expect(removed.rmsDb).toBeLessThan(1e-9);
  });

  it("looks only inside the band", () => {
    const result = compareResponses(flat, comparable(peak), { fromHz: 4000, toHz: 8000 });
    expect(result.maxAtHz).toBeGreaterThan(3950);
    expect(result.maxAtHz).toBeLessThan(8100);
    expect(Math.abs(result.maxDb)).toBeLessThan(0.5);
    const one = compareResponses(flat, comparable(peak), { fromHz: 1000, toHz: 1000 });
    expect(one.rmsDb).toBeCloseTo(6, 9);
  });

  it("weights the means as pink noise is heard by a meter", () => {
    const low = frequenciesHz.map((hz) => (hz < 40 ? 6 : 0));
    const of = (weighting: "A" | "C" | "Z") =>
      compareResponses(flat, { frequenciesHz, magnitudeDb: low }, { weighting }).rmsDb;
    expect(of("A")).toBeLessThan(0.1 * of("Z"));
    expect(of("C")).toBeLessThan(of("Z"));
  });

  it("does not count what lies deep in a stop band", () => {
    const deeper = comparable(bass, {
      magnitudeDb: magnitudeDb(bass).map((db) => (db < -70 ? db - 30 : db)),
    });
    expect(Math.abs(compareResponses(comparable(bass), deeper).maxDb)).toBe(0);
    expect(compareResponses(comparable(bass), deeper, { floorDb: 200 }).maxDb).toBeCloseTo(-30, 9);
  });

  it("takes a level that alone lies deep as lying at the floor", () => {
    const silent = { frequenciesHz, magnitudeDb: frequenciesHz.map((hz) => (hz > 5000 ? -400 : 0)) };
    expect(compareResponses(flat, silent).maxDb).toBeCloseTo(-60, 9);
    expect(compareResponses(silent, flat, { floorDb: 30 }).maxDb).toBeCloseTo(30, 9);
  });

  it("judges level offset and phase only where both pass", () => {
    const turned = frequenciesHz.map((hz) => (hz > 2000 ? 3 : 0));
    const second = comparable(bass, {
      magnitudeDb: magnitudeDb(bass).map((db, k) => (frequenciesHz[k]! > 2000 ? db - 25 : db + 1)),
      phaseRad: phaseOf(bass).map((angle, k) => angle + turned[k]!),
    });
    const result = compareResponses(comparable(bass), second);
    expect(result.levelOffsetDb).toBeCloseTo(1, 9);
    expect(result.phase!.maxDeg).toBeCloseTo(0, 9);
  });

  it("tells delay and polarity from what was stated", () => {
    const result = compareResponses(
      comparable(peak, { delayMs: 3 }),
      comparable(peak, { delayMs: 4.25, polarity: "inverted" }),
    );
    expect(result.delayMs).toBeCloseTo(1.25, 12);
    expect(result.polarity).toBe("opposite");
    expect(result.maxDb).toBe(0);
    expect(result.phase!.maxDeg).toBeCloseTo(0, 9);
  });

  it("sees a polarity that hides in the filters, and two that cancel", () => {
    const turned = { re: peak.re.map((x) => -x), im: peak.im.map((x) => -x) };
    expect(compareResponses(comparable(peak), comparable(turned)).polarity).toBe("opposite");
    expect(compareResponses(comparable(peak), comparable(turned, { polarity: "inverted" })).polarity).toBe(
      "same",
    );
  });

  it("reports phase without magnitude for an all-pass", () => {
    const allPass = cascadeResponse(
      filterSections({ kind: "all-pass", frequencyHz: 1000, order: 2, q: 5 }, 48_000),
      axis,
    );
    const result = compareResponses(flat, comparable(allPass));
    expect(Math.abs(result.maxDb)).toBeLessThan(1e-12);
    expect(result.phase!.maxAtHz).toBeCloseTo(1000, 9);
    expect(Math.abs(result.phase!.maxDeg)).toBeCloseTo(180, 9);
  });

  it("separates a delay inside the phases from magnitude and polarity", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -150, max: 150, noNaN: true }),
        fc.boolean(),
        fc.constantFrom(peak, bass),
        (delayMs, turned, base) => {
          const delayed = delayedResponse(base, delayMs, axis);
          const sign = turned ? -1 : 1;
          const second = { re: delayed.re.map((x) => sign * x), im: delayed.im.map((x) => sign * x) };
          const result = compareResponses(comparable(base), comparable(second), { delay: "fitted" });
          expect(Math.abs(result.delayMs - delayMs)).toBeLessThan(1e-7);
          expect(result.polarity).toBe(turned ? "opposite" : "same");
          expect(Math.abs(result.maxDb)).toBeLessThan(1e-9);
          expect(Math.abs(result.phase!.maxDeg)).toBeLessThan(1e-4);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("finds the delay of a linear-phase FIR: half its length", () => {
    const taps = Array.from({ length: 801 }, (_, n) => {
      const x = n - 400;
      return (
        (x === 0 ? 1 : Math.sin(0.5 * Math.PI * x) / (0.5 * Math.PI * x)) * Math.cos((Math.PI * x) / 802) ** 2
      );
    });
    const fir = firResponse({ taps }, axis);
    const result = compareResponses(flat, comparable(fir), { delay: "fitted", toHz: 8000 });
    expect(result.delayMs).toBeCloseTo(400 / 48, 6);
  });

  it("estimates no delay where nothing is weighted", () => {
    expect(
      estimateDelayMs(frequenciesHz, peak, new Float64Array(frequenciesHz.length), 10),
    ).toBeLessThanOrEqual(10);
  });

  it("leaves the phase out when one is unknown", () => {
    const result = compareResponses({ frequenciesHz, magnitudeDb: flat.magnitudeDb }, flat);
    expect(result.phase).toBeUndefined();
  });

  it("compares two paths of two configurations", () => {
    const changed = {
      ...EXAMPLE,
      outputs: EXAMPLE.outputs.map((output) => ({
        ...output,
        gainDb: output.gainDb + 1,
        delayMs: output.delayMs + 0.5,
      })),
    };
    const before = acousticResponses(EXAMPLE);
    const after = acousticResponses(changed);
    const result = compareResponses(
      comparablePath(before.paths[0]!, before.axis),
      comparablePath(after.paths[0]!, after.axis),
    );
    expect(result.levelOffsetDb).toBeCloseTo(1, 9);
    expect(result.delayMs).toBeCloseTo(0.5, 12);
    expect(result.polarity).toBe("same");
  });

  it("refuses responses that do not belong together", () => {
    const short = { frequenciesHz: frequenciesHz.slice(1), magnitudeDb: frequenciesHz.slice(1) };
    const refusal = expect.objectContaining({ code: "acoustics.invalid-grid" });
    expect(() => compareResponses(flat, short)).toThrow(refusal);
    expect(() => compareResponses(flat, { ...flat, magnitudeDb: [1, 2] })).toThrow(refusal);
    expect(() => compareResponses(flat, flat, { fromHz: 21_000, toHz: 22_000 })).toThrow(refusal);
    const other = frequencyGrid().map((hz) => 1.001 * hz);
    expect(() => compareResponses(flat, { ...flat, frequenciesHz: other })).toThrow(refusal);
  });
});
