import { describe, expect, it } from "vitest";
import {
  cascadeResponse,
  defaultGraphicQ,
  filterSections,
  frequencyAxis,
  GRAPHIC_LAYOUTS,
  type GraphicLayoutName,
  graphicBandIndices,
  graphicCentersHz,
  graphicSections,
  nominalThirdOctaveHz,
  thirdOctaveBand,
  thirdOctaveBands,
} from "../../src/acoustics/index.ts";
import { levelsDb, readReference, Worst } from "./reference.ts";

interface Band {
  index: number;
  nominalHz: number;
  exactHz: number;
  lowerEdgeHz: number;
  upperEdgeHz: number;
}

interface GraphicCase {
  id: string;
  bands: 27 | 31;
  sampleRateHz: number;
  gainsDb: number[];
  magnitudeDb: number[];
  phaseRad: number[];
  atCentresDb: number[];
  largest: { magnitudeDb: number };
  smallest: { magnitudeDb: number };
}

// Source: IEC 61260-1:2014 (bands), Audio EQ Cookbook computed with SciPy (responses); tests/reference/README.md.
const reference = readReference<{
  frequenciesHz: number[];
  facts: Record<string, Band[]>;
  cases: GraphicCase[];
}>("graphic-eq");
const layoutOf = (bands: number) => `third-octave-${bands}` as GraphicLayoutName;

describe("bands", () => {
  it.each([27, 31])("of the layout with %i bands stand in the table", (count) => {
    const table = reference.facts[`bands${count}`]!;
    expect(graphicBandIndices(layoutOf(count))).toEqual(table.map((band) => band.index));
    const centersHz = graphicCentersHz(layoutOf(count));
    table.forEach((expected, k) => {
      const band = thirdOctaveBand(expected.index);
      expect(nominalThirdOctaveHz(expected.index)).toBe(expected.nominalHz);
      for (const [value, exact] of [
        [centersHz[k]!, expected.exactHz],
        [band.centerHz, expected.exactHz],
        [band.fromHz, expected.lowerEdgeHz],
        [band.toHz, expected.upperEdgeHz],
      ] as const) {
        expect(Math.abs(value / exact - 1)).toBeLessThan(1e-9);
      }
    });
  });

  it("of wider layouts begin and end where their names say", () => {
    const nominal = (layout: GraphicLayoutName) => graphicBandIndices(layout).map(nominalThirdOctaveHz);
    expect(nominal("octave-10")).toEqual([31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000]);
    expect(nominal("two-thirds-octave-15")).toEqual([
      25, 40, 63, 100, 160, 250, 400, 630, 1000, 1600, 2500, 4000, 6300, 10_000, 16_000,
    ]);
    expect(GRAPHIC_LAYOUTS).toHaveLength(4);
    expect(thirdOctaveBands().map((band) => nominalThirdOctaveHz(band.index))).toEqual(
      nominal("third-octave-31"),
    );
  });

  it("are as wide as their spacing by default", () => {
    expect(defaultGraphicQ("third-octave-27")).toBeCloseTo(2 ** (1 / 6) / (2 ** (1 / 3) - 1), 12);
    expect(defaultGraphicQ("two-thirds-octave-15")).toBeCloseTo(2 ** (1 / 3) / (2 ** (2 / 3) - 1), 12);
    expect(defaultGraphicQ("octave-10")).toBeCloseTo(Math.SQRT2, 12);
  });
});

describe("graphic equalizers", () => {
  it("respond as the table says within 6e-9 dB and 6e-10 rad (the table has ten digits)", () => {
    const worst = new Worst();
    for (const c of reference.cases) {
      const layout = layoutOf(c.bands);
      const sections = graphicSections({ layout, gainsDb: c.gainsDb }, c.sampleRateHz);
      worst.see(cascadeResponse(sections, frequencyAxis(c.sampleRateHz, reference.frequenciesHz)), c);
      worst.see(cascadeResponse(sections, frequencyAxis(c.sampleRateHz, graphicCentersHz(layout))), {
        magnitudeDb: c.atCentresDb,
      });
    }
    expect(reference.cases).toHaveLength(10);
    expect(worst.magnitudeDb).toBeLessThan(6e-9);
    expect(worst.phaseRad).toBeLessThan(6e-10);
  });

  it.each(reference.cases)("$id: largest and smallest level", (c) => {
    const points = Array.from({ length: 40_001 }, (_, k) => 20 * 1000 ** (k / 40_000));
    const sections = graphicSections({ layout: layoutOf(c.bands), gainsDb: c.gainsDb }, c.sampleRateHz);
    const levels = levelsDb(cascadeResponse(sections, frequencyAxis(c.sampleRateHz, points)));
    expect(Math.abs(Math.max(...levels) - c.largest.magnitudeDb)).toBeLessThan(1e-3);
    expect(Math.abs(Math.min(...levels) - c.smallest.magnitudeDb)).toBeLessThan(1e-3);
  });

  it("give no section for bands at 0 dB or when bypassed", () => {
    const gainsDb = [0, 0, 0, 0, -3, 0, 0, 0, 0, 0];
    expect(graphicSections({ layout: "octave-10", gainsDb }, 48_000)).toHaveLength(1);
    expect(graphicSections({ layout: "octave-10", gainsDb, enabled: false }, 48_000)).toEqual([]);
  });
});

interface RefitCase {
  id: string;
  sourceFs: number;
  source: {
    graphicGains?: number[];
    shelves?: { type: string; f: number; gain: number; q: number }[];
    parametric?: [number, number, number][];
  };
  targetDb: number[];
}

// Source: curves computed independently for the refitting cases; six decimals.
const refit = readReference<{ forward: RefitCase[]; reverse: RefitCase[] }>("eq-refit-cases");

describe("equalizer curves of the refitting cases", () => {
  it.each([...refit.forward, ...refit.reverse])("$id within 1.5e-6 dB", (c) => {
    const frequenciesHz = Array.from({ length: 208 }, (_, k) => 1000 * 2 ** ((k - 111) / 24));
    const { graphicGains, shelves = [], parametric = [] } = c.source;
    const sections = [
      ...(graphicGains
        ? graphicSections({ layout: "third-octave-27", gainsDb: graphicGains }, c.sourceFs)
        : []),
      ...shelves.flatMap(({ type, f, gain, q }) =>
        filterSections(
          { kind: type === "lowshelf" ? "low-shelf" : "high-shelf", frequencyHz: f, gainDb: gain, q },
          c.sourceFs,
        ),
      ),
      ...parametric.flatMap(([frequencyHz, gainDb, q]) =>
        filterSections({ kind: "peaking", frequencyHz, gainDb, q }, c.sourceFs),
      ),
    ];
    const levels = levelsDb(cascadeResponse(sections, frequencyAxis(c.sourceFs, frequenciesHz)));
    c.targetDb.forEach((expected, k) => {
      expect(Math.abs(levels[k]! - expected)).toBeLessThan(1.5e-6);
    });
  });
});
