import { describe, expect, it } from "vitest";
import { centralValue } from "../../src/proof/delays.ts";
import { comparisonGrid } from "../../src/proof/frequencies.ts";
import { changed, small } from "./samples.ts";

function withFilter(frequencyHz: number, q: number, kind: "peaking" | "notch" = "peaking") {
  return changed(small, ({ outputs }) => {
    outputs[0]!.filters.push(
      kind === "notch" ? { id: "x", kind, frequencyHz, q } : { id: "x", kind, frequencyHz, q, gainDb: 3 },
    );
  });
}

describe("the frequencies of a comparison", () => {
  const plain = comparisonGrid(small, small);

  it("are 1/24 octave apart and hold every third-octave mid-band of IEC 61260-1 from 20 Hz to 20 kHz", () => {
    const { frequenciesHz } = plain;
    for (let k = -17; k <= 13; k++) {
      const nearest = frequenciesHz.reduce((best, hz) =>
        Math.abs(Math.log(hz / (1000 * 10 ** (k / 10)))) < Math.abs(Math.log(best / (1000 * 10 ** (k / 10))))
          ? hz
          : best,
      );
      expect(nearest).toBeCloseTo(1000 * 10 ** (k / 10), 6);
    }
  });

  it("are judged from 40 Hz to 16 kHz, both ends included", () => {
    const { frequenciesHz, bandStart, bandEnd } = plain;
    expect(frequenciesHz[bandStart]).toBeCloseTo(39.81, 2);
    expect(frequenciesHz[bandEnd - 1]).toBeCloseTo(15_848.93, 2);
  });

  it("each stand for their part of the spectrum: the parts add up to the whole", () => {
    for (const { frequenciesHz, octaves } of [plain, comparisonGrid(small, withFilter(1234, 40))]) {
      const whole = Math.log2(frequenciesHz.at(-1)! / frequenciesHz[0]!);
      expect(octaves.reduce((sum, width) => sum + width, 0)).toBeCloseTo(whole, 9);
    }
  });

  it("lie closer at a narrow filter of either document, and not in its center if that is silence", () => {
    for (const grid of [
      comparisonGrid(small, withFilter(1234, 40)),
      comparisonGrid(withFilter(1234, 40), small),
    ]) {
      expect(grid.frequenciesHz).toContain(1234);
      expect(grid.frequenciesHz.length).toBeGreaterThan(plain.frequenciesHz.length + 1);
    }
    const notch = comparisonGrid(small, withFilter(1234, 40, "notch"));
    expect(notch.frequenciesHz).not.toContain(1234);
    expect(notch.frequenciesHz.length).toBeGreaterThan(plain.frequenciesHz.length);
    expect(comparisonGrid(small, withFilter(1234, 4)).frequenciesHz).toEqual(plain.frequenciesHz);
  });

  it("stay increasing and below half of the lower sample rate", () => {
    const slow = changed(withFilter(1000.5, 60), ({ unit }) => {
      unit.sampleRateHz = 32_000;
    });
    const { frequenciesHz } = comparisonGrid(small, slow);
    frequenciesHz.forEach((hz, k) => {
      if (k > 0) expect(hz).toBeGreaterThan(frequenciesHz[k - 1]!);
      expect(hz).toBeLessThan(16_000);
    });
  });
});

describe("the value that many share", () => {
  it.each([
    [[], 0],
    [[3], 3],
    [[0, 0, 0, 5], 0],
    [[5, 5, 5, 0], 5],
    [[0, 4], 0],
    [[2, 7], 2],
    [[-7, -2], -2],
    [[-1, 4], 0],
    [[1, 2, 900], 2],
  ])("of %j is %d", (values, expected) => {
    expect(centralValue(values)).toBe(expected);
  });
});
