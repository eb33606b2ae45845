import { describe, expect, it } from "vitest";
import {
  addScaledInto,
  complexArray,
  multiplyInto,
  phaseOf,
  scaleInto,
  squaredMagnitude,
  unwrapped,
} from "../../../src/base/numeric/index.ts";

const of = (...values: [number, number][]) => ({
  re: Float64Array.from(values, ([re]) => re),
  im: Float64Array.from(values, ([, im]) => im),
});

describe("complex arrays", () => {
  it("multiply, add, scale in place", () => {
    const a = of([1, 2], [0, 1]);
    multiplyInto(a, of([3, -1], [0, 1]));
    expect(a).toEqual(of([5, 5], [-1, 0]));
    addScaledInto(a, of([1, 1], [1, 1]), -2);
    expect(a).toEqual(of([3, 3], [-3, -2]));
    scaleInto(a, 2);
    expect(a).toEqual(of([6, 6], [-6, -4]));
  });

  it("give power and angle", () => {
    expect([...squaredMagnitude(of([3, 4], [0, 0]))]).toEqual([25, 0]);
    expect([...phaseOf(of([0, 2], [-1, 0], [0, 0]))]).toEqual([Math.PI / 2, Math.PI, 0]);
    expect(complexArray(2, 1)).toEqual(of([1, 0], [1, 0]));
  });

  it("unwrap a steadily turning angle", () => {
    const turning = Float64Array.from({ length: 50 }, (_, k) => -0.7 * k);
    const wrapped = turning.map((x) => Math.atan2(Math.sin(x), Math.cos(x)));
    unwrapped(wrapped).forEach((x, k) => {
      expect(x).toBeCloseTo(turning[k]!, 9);
    });
  });
});
