import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  boundedLeastSquares,
  choleskyFactor,
  choleskySolve,
  gramMatrix,
} from "../../../src/base/numeric/index.ts";

const ROWS = 12;

/** Columns that are zero outside of their spans. */
const spanned = fc
  .array(
    fc.record({
      from: fc.integer({ min: 0, max: ROWS }),
      to: fc.integer({ min: 0, max: ROWS }),
      values: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: ROWS, maxLength: ROWS }),
    }),
    { minLength: 1, maxLength: 9 },
  )
  .map((columns) => ({
    spans: Int32Array.from(columns.flatMap(({ from, to }) => [from, to])),
    columns: Float64Array.from(
      columns.flatMap(({ from, to, values }) =>
        values.map((value, row) => (row >= from && row < to ? value : 0)),
      ),
    ),
    count: columns.length,
  }));

describe("normal equations", () => {
  it("lose nothing when spans leave out zeros, in whatever order columns are chosen (law)", () => {
    fc.assert(
      fc.property(spanned, fc.infiniteStream(fc.nat()), ({ columns, spans, count }, keys) => {
        const order = Array.from({ length: count }, (_, column) => ({
          column,
          key: keys.next().value as number,
        }))
          .sort((a, b) => a.key - b.key)
          .map(({ column }) => column);
        const whole = new Float64Array(count * count);
        const short = new Float64Array(count * count);
        gramMatrix(columns, ROWS, order, whole);
        gramMatrix(columns, ROWS, order, short, spans);
        for (let a = 0; a < count; a++) {
          for (let b = 0; b <= a; b++) expect(short[a * count + b]).toBe(whole[a * count + b]);
        }
      }),
    );
  });

  it("are solved exactly, zeros at the beginnings of rows or not (law)", () => {
    fc.assert(
      fc.property(
        spanned,
        fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 9, maxLength: 9 }),
        (of, x) => {
          const n = of.count;
          const lower = new Float64Array(n * n);
          gramMatrix(of.columns, ROWS, [...Array(n).keys()], lower, of.spans);
          for (let a = 0; a < n; a++) lower[a * n + a]! += 10;
          const at = (a: number, b: number) => lower[Math.max(a, b) * n + Math.min(a, b)]!;
          const right = Float64Array.from({ length: n }, (_, a) =>
            x.slice(0, n).reduce((s, v, b) => s + at(a, b) * v, 0),
          );
          const factor = lower.slice();
          expect(choleskyFactor(factor, n)).toBe(true);
          choleskySolve(factor, n, right);
          for (let a = 0; a < n; a++) expect(right[a]!).toBeCloseTo(x[a]!, 8);
        },
      ),
    );
  });
});

describe("bounded least squares", () => {
  // Rosenbrock's valley (Computer Journal 3, 1960; cited from memory): r = (10(y − x²), 1 − x), least at (1, 1).
  const valley = {
    rows: 2,
    parameters: 2,
    residual(p: Float64Array, out: Float64Array) {
      out.set([10 * (p[1]! - p[0]! ** 2), 1 - p[0]!]);
    },
    jacobian(p: Float64Array, columns: Float64Array) {
      columns.set([-20 * p[0]!, -1, 10, 0]);
    },
  };
  const budget = { maxIterations: 100, relativeDecrease: 0 };
  const limits = (x: number) => ({
    lower: Float64Array.of(-5, -5),
    upper: Float64Array.of(x, 5),
    maxStep: Float64Array.of(4, 4),
  });

  it("follows a bent valley to its end", () => {
    const p = Float64Array.of(-1.2, 1);
    boundedLeastSquares(valley, p, new Float64Array(2), limits(5), budget);
    expect(p[0]).toBeCloseTo(1, 6);
    expect(p[1]).toBeCloseTo(1, 6);
  });

  it("stops at a limit, at the least point there", () => {
    const p = Float64Array.of(-1.2, 1);
    const { sumOfSquares } = boundedLeastSquares(valley, p, new Float64Array(2), limits(0.5), budget);
    expect(p[0]).toBe(0.5);
    expect(p[1]).toBeCloseTo(0.25, 6);
    expect(sumOfSquares).toBeCloseTo(0.25, 6);
  });
});
