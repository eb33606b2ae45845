import { describe, expect, it } from "vitest";
import { faderGrid, faderLevelDb, faderMarkAt } from "../../src/profile/index.ts";

// An invented scale: 7 is the reference, 20 dB for four marks below it.
const SCALE = {
  marks: [
    { mark: 0, levelDb: -90 },
    { mark: 3, levelDb: -20 },
    { mark: 7, levelDb: 0 },
    { mark: 10, levelDb: 10 },
  ],
  step: 0.1,
};

describe("fader scale", () => {
  it("reads levels on straight lines between the marks", () => {
    expect(faderLevelDb(SCALE, 7)).toBe(0);
    expect(faderLevelDb(SCALE, 5)).toBeCloseTo(-10, 12);
    expect(faderLevelDb(SCALE, 12)).toBe(10);
    expect(faderLevelDb(SCALE, -1)).toBe(-90);
  });

  it("finds the mark of a level", () => {
    for (const mark of [0, 1.5, 4.2, 7, 9.9]) {
      expect(faderMarkAt(SCALE, faderLevelDb(SCALE, mark))).toBeCloseTo(mark, 12);
    }
    expect(faderGrid(SCALE)).toEqual({ kind: "step", min: 0, max: 10, step: 0.1 });
  });
});
