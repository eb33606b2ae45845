import { describe, expect, it } from "vitest";
import { cascadeResponse, crossoverSections, frequencyAxis } from "../../src/acoustics/index.ts";
import { crossoverOf, readReference, sideOf, Worst } from "./reference.ts";

interface FilterCase {
  id: string;
  kind: string;
  family: string;
  order: number;
  type: string;
  cornerHz: number;
  sampleRateHz: number;
  norm?: string;
  magnitudeDb: number[];
  phaseRad: number[];
  atCorner: { magnitudeDb: number; phaseRad: number };
}

// Source: scipy.signal.butter and scipy.signal.bessel (SciPy 1.17.1) with origins in tests/reference/README.md.
const reference = readReference<{ frequenciesHz: number[]; cases: FilterCase[] }>("crossover-response");
const filters = reference.cases.filter((c) => c.kind === "filter");

describe("crossover filters", () => {
  it("respond as the table says", () => {
    const worst = new Worst();
    const corner = new Worst();
    for (const c of filters) {
      const sections = crossoverSections(crossoverOf(c), sideOf(c.type), c.sampleRateHz);
      worst.see(cascadeResponse(sections, frequencyAxis(c.sampleRateHz, reference.frequenciesHz)), c);
      corner.see(cascadeResponse(sections, frequencyAxis(c.sampleRateHz, [c.cornerHz])), {
        magnitudeDb: [c.atCorner.magnitudeDb],
        phaseRad: [c.atCorner.phaseRad],
      });
    }
    expect(filters).toHaveLength(34);
    expect(worst.magnitudeDb).toBeLessThan(6e-9);
    expect(worst.phaseRad).toBeLessThan(6e-10);
  });
});
