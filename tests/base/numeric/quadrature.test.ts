import { describe, expect, it } from "vitest";
import { integrationWeights, meanBetween } from "../../../src/base/numeric/index.ts";

function integral(x: readonly number[], f: (x: number) => number): number {
  return integrationWeights(x).reduce((sum, weight, k) => sum + weight * f(x[k]!), 0);
}

const evenly = (n: number, from: number, to: number) =>
  Array.from({ length: n }, (_, k) => from + ((to - from) * k) / (n - 1));

describe("integration over points", () => {
  it("integrates cubics exactly and e^x with an error of fourth order on even points", () => {
    expect(integral(evenly(9, -1, 3), (x) => 4 * x ** 3 - x)).toBeCloseTo(81 - 1 - (9 - 1) / 2, 10);
    const error = (n: number) => Math.abs(integral(evenly(n, 0, 1), Math.exp) - (Math.E - 1));
    expect(error(11) / error(21)).toBeGreaterThan(14);
  });

  it("uses trapezoids on uneven points", () => {
    expect(integral([0, 1, 3, 4], (x) => 2 * x + 1)).toBeCloseTo(20, 12);
    expect([...integrationWeights([0, 1, 3])]).toEqual([0.5, 1.5, 1]);
    expect([...integrationWeights([5])]).toEqual([0]);
  });

  it("averages straight lines between points over a part of them", () => {
    const x = [0, 1, 2];
    const y = [0, 2, 0];
    expect(meanBetween(x, y, 0, 2)).toBeCloseTo(1, 12);
    expect(meanBetween(x, y, 0.5, 1.5)).toBeCloseTo(1.5, 12);
    expect(meanBetween(x, y, -5, 0.5)).toBeCloseTo(0.5, 12);
    expect(meanBetween(x, y, 3, 4)).toBeUndefined();
  });
});
