import { describe, expect, it } from "vitest";
import { polynomialRoots } from "../../../src/base/numeric/index.ts";

/** Coefficients c₀ … cₙ of ∏(x − rₖ). */
function expand(roots: readonly number[]): number[] {
  let product = [1];
  for (const root of roots) {
    product = [0, ...product].map((c, k) => c - root * (product[k] ?? 0));
  }
  return product;
}

describe("polynomial roots", () => {
  it("finds real roots of a product", () => {
    const roots = [-7, -2, -0.5, 0.25, 3];
    const found = polynomialRoots(expand(roots)).toSorted((a, b) => a.re - b.re);
    found.forEach(({ re, im }, k) => {
      expect(re).toBeCloseTo(roots[k]!, 11);
      expect(im).toBeCloseTo(0, 11);
    });
  });

  it("finds the roots of unity", () => {
    for (let n = 1; n <= 12; n++) {
      const found = polynomialRoots([-1, ...new Array<number>(n - 1).fill(0), 1]);
      expect(found).toHaveLength(n);
      for (let k = 0; k < n; k++) {
        const re = Math.cos((2 * Math.PI * k) / n);
        const im = Math.sin((2 * Math.PI * k) / n);
        expect(Math.min(...found.map((r) => Math.hypot(r.re - re, r.im - im)))).toBeLessThan(1e-14);
      }
    }
  });

  it("finds the poles of the second- and third-order Bessel filter", () => {
    // θ₂ = s² + 3s + 3, θ₃ = (s + 2.3222)(…): roots by the closed formulas.
    const [a] = polynomialRoots([3, 3, 1]);
    expect(a!.re).toBeCloseTo(-1.5, 14);
    expect(Math.abs(a!.im)).toBeCloseTo(Math.sqrt(3) / 2, 14);
    const real = polynomialRoots([15, 15, 6, 1]).find(({ im }) => Math.abs(im) < 1e-9);
    // Cardano on the depressed cubic t³ + 3t + 1 = 0, s = t − 2.
    const root = Math.cbrt(-0.5 + Math.sqrt(1.25)) + Math.cbrt(-0.5 - Math.sqrt(1.25));
    expect(real!.re).toBeCloseTo(root - 2, 13);
  });
});
