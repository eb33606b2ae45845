import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { NumberGrid } from "../../src/model/index.ts";
import {
  delayGridMs,
  gridContains,
  gridCount,
  gridIndex,
  gridNearest,
  gridNeighbours,
  gridRange,
  gridStep,
  gridValue,
} from "../../src/profile/index.ts";

const HALF_DB: NumberGrid = { kind: "step", min: -12, max: 12, step: 0.5 };
const TENTHS: NumberGrid = { kind: "step", min: 0, max: 1, step: 0.1 };
const LIST: NumberGrid = { kind: "list", values: [0.7, 1, 1.4, 2, 4] };
const LOG: NumberGrid = { kind: "log", min: 20, max: 20000, referenceHz: 1000, perOctave: 24 };

const grids = fc.oneof(
  fc.record({
    kind: fc.constant("step" as const),
    min: fc.integer({ min: -100, max: 0 }),
    max: fc.integer({ min: 1, max: 100 }),
    step: fc.constantFrom(0.01, 0.05, 0.1, 0.25, 0.5, 1, 3),
  }),
  fc
    .uniqueArray(fc.integer({ min: -500, max: 500 }), { minLength: 1, maxLength: 40 })
    .map((values) => ({ kind: "list" as const, values: values.sort((a, b) => a - b).map((v) => v / 10) })),
  fc.record({
    kind: fc.constant("log" as const),
    min: fc.integer({ min: 5, max: 200 }),
    max: fc.integer({ min: 1000, max: 40000 }),
    referenceHz: fc.constantFrom(440, 1000),
    perOctave: fc.constantFrom(1, 3, 12, 24, 96),
  }),
);

describe("number grids", () => {
  it("knows its values by index", () => {
    expect([gridCount(HALF_DB), gridValue(HALF_DB, 0), gridValue(HALF_DB, 48)]).toEqual([49, -12, 12]);
    expect(gridValue(TENTHS, 3)).toBe(0.3);
    expect(gridRange(LIST)).toEqual({ min: 0.7, max: 4 });
    // One octave above the reference, and the ends inside 20 Hz to 20 kHz.
    expect(gridValue(LOG, gridIndex(LOG, 2000))).toBe(2000);
    expect(gridRange(LOG).min).toBeCloseTo(1000 * 2 ** (-135 / 24), 6);
    expect(gridCount(LOG)).toBe(135 + 103 + 1);
  });

  it("finds the nearest, in ratio on a log grid", () => {
    expect(gridNearest(HALF_DB, 0.26)).toBe(0.5);
    expect(gridNearest(HALF_DB, 99)).toBe(12);
    expect(gridNearest(LIST, 1.6)).toBe(1.4);
    const below = gridValue(LOG, gridIndex(LOG, 1000) - 1);
    const geometricMiddle = Math.sqrt(below * 1000);
    expect(gridNearest(LOG, geometricMiddle * 1.0001)).toBe(1000);
    expect(gridNearest(LOG, geometricMiddle * 0.9999)).toBe(below);
  });

  it("contains its values within 1e-9 and no others", () => {
    expect(gridContains(TENTHS, 0.1 + 0.2)).toBe(true);
    expect(gridContains(TENTHS, 0.3 + 2e-9)).toBe(false);
    expect(gridContains(LOG, 1000 * 2 ** (1 / 24))).toBe(true);
    expect(gridContains(LOG, 1029)).toBe(false);
    expect(gridContains(HALF_DB, 12.5)).toBe(false);
  });

  it("gives the neighbours, none beyond an end", () => {
    expect(gridNeighbours(LIST, 1.6)).toEqual({ below: 1.4, above: 2 });
    expect(gridNeighbours(LIST, 2)).toEqual({ below: 2, above: 2 });
    expect(gridNeighbours(HALF_DB, 13)).toEqual({ below: 12, above: undefined });
    expect(gridNeighbours(HALF_DB, -13)).toEqual({ below: undefined, above: -12 });
    expect(gridStep(LIST, 2)).toBe(2);
    expect(gridStep(HALF_DB, 0)).toBe(0.5);
  });

  it("turns whole samples into milliseconds", () => {
    const grid = delayGridMs({ unit: "samples", grid: { kind: "step", min: 0, max: 48000, step: 1 } }, 48000);
    expect(gridNearest(grid, 10.01)).toBeCloseTo(480 / 48, 9);
    expect(gridContains(grid, 1000 / 48000)).toBe(true);
    expect(gridContains(grid, 0.03)).toBe(false);
    expect(gridRange(grid)).toEqual({ min: 0, max: 1000 });
  });

  it("law: every value is found again, and the nearest is one of the neighbours", () => {
    fc.assert(
      fc.property(grids, fc.double({ min: -600, max: 50000, noNaN: true }), (grid, value) => {
        const nearest = gridNearest(grid, value);
        expect(gridContains(grid, nearest)).toBe(true);
        expect(gridValue(grid, gridIndex(grid, nearest))).toBe(nearest);
        const { below, above } = gridNeighbours(grid, value);
        expect([below, above]).toContain(nearest);
        if (below !== undefined && above !== undefined && below !== above) {
          expect(gridIndex(grid, above) - gridIndex(grid, below)).toBe(1);
        }
      }),
      { numRuns: 500 },
    );
  });
});
