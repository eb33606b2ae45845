import fc from "fast-check";
import * as reference from "simple-statistics";
import { describe, expect, it } from "vitest";
import {
  median,
  medianAbsoluteDeviation,
  modifiedZScores,
  OUTLIER_SCORE,
} from "../../../src/fleet/standard/index.ts";
import { hasSciPy, runSciPy } from "../../acoustics/scipy.ts";

const PROGRAM = `
from scipy.stats import median_abs_deviation
print(json.dumps([{"median": float(np.median(x)), "mad": float(median_abs_deviation(x)),
  "scaled": float(median_abs_deviation(x, scale="normal"))} for x in data]))`;

const samples = fc.sample(
  fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 1, maxLength: 40 }),
  { seed: 20261125, numRuns: 50 },
);

describe("robust statistics", () => {
  it.runIf(hasSciPy())("agree with numpy.median and scipy.stats.median_abs_deviation", () => {
    const answers = runSciPy<{ median: number; mad: number; scaled: number }[]>(PROGRAM, samples)!;
    for (const [index, values] of samples.entries()) {
      expect(median(values)).toBeCloseTo(answers[index]!.median, 10);
      expect(medianAbsoluteDeviation(values)).toBeCloseTo(answers[index]!.mad, 10);
      // The normal scale of the MAD is 1/Φ⁻¹(3/4), of which 0.6745 is the reciprocal to four places.
      if (answers[index]!.mad > 0) {
        expect(1 / (answers[index]!.scaled / answers[index]!.mad)).toBeCloseTo(0.6745, 4);
      }
    }
  });

  // In plain JavaScript, so that something is compared where there is no Python.
  it("agree with simple-statistics, outliers included", () => {
    const values = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(values, (numbers) => {
        const center = reference.median(numbers);
        const mad = reference.medianAbsoluteDeviation(numbers);
        expect(median(numbers)).toBeCloseTo(center, 10);
        expect(medianAbsoluteDeviation(numbers)).toBeCloseTo(mad, 10);
        if (mad < 1e-9) return;
        // Iglewicz and Hoaglin, by the library's median and MAD.
        const isOut = numbers.map((value) => Math.abs((0.6745 * (value - center)) / mad) > 3.5);
        expect(modifiedZScores(numbers).map((score) => Math.abs(score) > OUTLIER_SCORE)).toEqual(isOut);
      }),
    );
  });

  it("score by hand as the published formula does", () => {
    // Median 3, deviations 2 1 0 1 97, MAD 1.
    expect(modifiedZScores([1, 2, 3, 4, 100])).toEqual([-1.349, -0.6745, 0, 0.6745, 65.4265]);
    expect(modifiedZScores([5, 5, 5, 5])).toEqual([0, 0, 0, 0]);
    const [usual, , , , odd] = modifiedZScores([5, 5, 5, 5, 5, 5, 5, 5, 5, 9].slice(-5));
    expect(usual).toBe(0);
    // Mean absolute deviation 4/5: 4 / (1.253314 × 0.8).
    expect(odd).toBeCloseTo(3.989, 3);
    expect(odd).toBeGreaterThan(OUTLIER_SCORE);
  });
});
