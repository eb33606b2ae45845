import { describe, expect, it } from "vitest";
import {
  cascadeResponse,
  crossoverSections,
  filterSections,
  frequencyAxis,
  frequencyGrid,
  type GraphicLayoutName,
  graphicSections,
  isInLipSync,
  magnitudeDb,
  pinkNoiseBandLevelDb,
  pinkNoiseLevelChangeDb,
  type Section,
  thirdOctaveCenterHz,
  thirdOctaveLevels,
  type Weighting,
  weightingDb,
  xCurveDb,
  xCurveSlopes,
} from "../../src/acoustics/index.ts";
import { crossoverOf, filterOf, readReference, sideOf } from "./reference.ts";

interface ReferenceFilter {
  kind: string;
  type: string;
  f0: number;
  q?: number;
  slope?: number;
  gainDb?: number;
  family: string;
  order: number;
  side: string;
  fc: number;
  bands: number;
  gainsDb: number[];
}

interface WeightingCase {
  id: string;
  kind: string;
  nominalHz: number;
  exactHz: number;
  tableADb: number;
  tableCDb: number;
  formulaADb: number;
  formulaCDb: number;
  frequencyHz: number;
  sampleRateHz: number;
  filters: ReferenceFilter[];
  gainDb: number;
  changeOfCWeightedLevelDb: number;
  changeOfAWeightedLevelDb: number;
  changeOfUnweightedLevelDb: number;
}

// Source: IEC 61672-1:2013 table 3 and annex E; tests/reference/README.md.
const { cases } = readReference<{ cases: WeightingCase[] }>("weighting");
const of = (kind: string) => cases.filter((c) => c.kind === kind);

describe("A and C weighting", () => {
  it.each(of("table"))("$id: the standard's table, rounded to 0.1 dB", (c) => {
    expect(Math.abs(weightingDb("A", c.exactHz) - c.tableADb)).toBeLessThan(0.05 + 1e-9);
    expect(Math.abs(weightingDb("C", c.exactHz) - c.tableCDb)).toBeLessThan(0.05 + 1e-9);
    expect(weightingDb("Z", c.exactHz)).toBe(0);
  });

  it("follow the formula within 6e-9 dB (the table has ten digits)", () => {
    let worst = 0;
    for (const c of [...of("table"), ...of("formula")]) {
      const hz = c.exactHz ?? c.frequencyHz;
      const exact = c.kind === "table" ? thirdOctaveCenterHz(Math.round(10 * Math.log10(hz / 1000))) : hz;
      worst = Math.max(worst, Math.abs(weightingDb("A", exact) - c.formulaADb));
      worst = Math.max(worst, Math.abs(weightingDb("C", exact) - c.formulaCDb));
    }
    expect(of("table")).toHaveLength(34);
    expect(of("formula")).toHaveLength(8);
    expect(worst).toBeLessThan(6e-9);
  });
});

function sectionsOf(filter: ReferenceFilter, sampleRateHz: number): readonly Section[] {
  if (filter.kind === "graphic") {
    const layout = `third-octave-${filter.bands}` as GraphicLayoutName;
    return graphicSections({ layout, gainsDb: filter.gainsDb }, sampleRateHz);
  }
  if (filter.kind === "crossover") {
    const half = crossoverOf({ ...filter, cornerHz: filter.fc });
    return crossoverSections(half, sideOf(filter.side), sampleRateHz);
  }
  const { slope, ...rest } = filter;
  const named = slope === undefined ? rest : { ...rest, shelfSlope: slope };
  return filterSections(filterOf({ ...named, frequencyHz: filter.f0 }), sampleRateHz);
}

const exactGrid = Array.from({ length: 480 }, (_, k) => 20 * 1000 ** (k / 479));

function changes(c: WeightingCase, frequenciesHz: ArrayLike<number>) {
  const axis = frequencyAxis(c.sampleRateHz, frequenciesHz);
  const sections = c.filters.flatMap((filter) => sectionsOf(filter, c.sampleRateHz));
  const levels = magnitudeDb(cascadeResponse(sections, axis)).map((db) => db + c.gainDb);
  const change = (weighting: Weighting) => pinkNoiseLevelChangeDb(frequenciesHz, levels, { weighting });
  return [
    change("C") - c.changeOfCWeightedLevelDb,
    change("A") - c.changeOfAWeightedLevelDb,
    change("Z") - c.changeOfUnweightedLevelDb,
  ].map(Math.abs);
}

describe("weighted pink noise through a filter", () => {
  it.each(of("levelChange"))("$id within 1e-5 dB on 48 points an octave", (c) => {
    expect(Math.max(...changes(c, exactGrid))).toBeLessThan(1e-5);
  });

  it.each(of("levelChange"))("$id within 0.001 dB on the default grid", (c) => {
    expect(Math.max(...changes(c, frequencyGrid()))).toBeLessThan(0.001);
  });

  it("has the whole table", () => {
    expect(of("levelChange")).toHaveLength(12);
  });
});

interface LevelCase {
  id: string;
  kind: string;
  frequencyHz: number;
  seats: number;
  expectedDb: number;
  bandHz: [number, number];
  inBandGainDb: number;
  changeOfCWeightedLevelDb: number;
}

// Source: SMPTE ST 202 / ISO 2969 and SMPTE RP 200 through public texts; tests/reference/levels.json names the standing.
const levels = readReference<{
  facts: { xCurve: { table: { nominalHz: number; levelDb: number; formulaDb: number }[] } };
  cases: LevelCase[];
}>("levels");

describe("reference levels", () => {
  it.each(levels.cases.filter((c) => c.kind === "xcurveFormula"))("$id", (c) => {
    expect(xCurveDb(c.frequencyHz)).toBeCloseTo(c.expectedDb, 8);
  });

  it.each(levels.cases.filter((c) => c.kind === "xcurveSeats"))("$id", (c) => {
    expect(Math.abs(xCurveDb(c.frequencyHz, xCurveSlopes(c.seats)) - c.expectedDb)).toBeLessThan(1e-6);
  });

  it.each(levels.facts.xCurve.table)("X-curve at $nominalHz Hz: the published whole dB", (row) => {
    expect(Math.abs(xCurveDb(row.nominalHz) - row.levelDb)).toBeLessThan(0.12);
    expect(xCurveDb(row.nominalHz)).toBeCloseTo(row.formulaDb, 8);
  });

  it.each(levels.cases.filter((c) => c.kind === "lfeMeterDifference"))("$id", (c) => {
    const [fromHz, toHz] = c.bandHz;
    const change = c.inBandGainDb + pinkNoiseBandLevelDb({ fromHz, toHz });
    expect(Math.abs(change - c.changeOfCWeightedLevelDb)).toBeLessThan(1e-6);
  });
});

// Source: Recommendation ITU-R BT.1359-1.
describe("lip sync", () => {
  const lipSync = readReference<{
    cases: {
      id: string;
      kind: string;
      soundLateMs: number;
      withinDetectability: boolean;
      withinAcceptability: boolean;
    }[];
  }>("delay-distance").cases.filter((c) => c.kind === "lipSync");

  it.each(lipSync)("$id", (c) => {
    expect(isInLipSync(c.soundLateMs, "detectability")).toBe(c.withinDetectability);
    expect(isInLipSync(c.soundLateMs, "acceptability")).toBe(c.withinAcceptability);
  });

  it("has the whole table", () => {
    expect(lipSync).toHaveLength(10);
  });
});

describe("third-octave levels of a fine response", () => {
  const frequenciesHz = frequencyGrid({ fromHz: 10, toHz: 22_000 });

  it("of a flat response are its level in all 31 bands", () => {
    const bands = thirdOctaveLevels(
      frequenciesHz,
      frequenciesHz.map(() => -7),
    );
    expect(bands).toHaveLength(31);
    for (const band of bands) expect(band.levelDb).toBeCloseTo(-7, 10);
  });

  it("are the mean power over the band: a band half as loud as silence is −3.01 dB", () => {
    const levels = frequenciesHz.map((hz) => (hz < 1000 ? 0 : hz === 1000 ? 10 * Math.log10(0.5) : -300));
    const [band] = thirdOctaveLevels(frequenciesHz, levels).filter(({ index }) => index === 0);
    expect(band!.levelDb).toBeCloseTo(10 * Math.log10(0.5), 9);
  });

  it("of a slope of 3 dB an octave in power follow the closed integral", () => {
    // |H|² = (f/1 kHz), so the mean over ln f in [a, b] is (b − a)/(1 kHz · ln(b/a)).
    const fine = frequencyGrid({ pointsPerOctave: 96, fromHz: 10, toHz: 24_000 });
    for (const band of thirdOctaveLevels(
      fine,
      fine.map((hz) => 10 * Math.log10(hz / 1000)),
    )) {
      const mean = (band.toHz - band.fromHz) / 1000 / Math.log(band.toHz / band.fromHz);
      expect(band.levelDb).toBeCloseTo(10 * Math.log10(mean), 3);
    }
  });

  it("leave out bands that the response does not reach", () => {
    const short = frequencyGrid({ fromHz: 100, toHz: 1000 });
    const bands = thirdOctaveLevels(
      short,
      short.map(() => 0),
    );
    expect(bands.map(({ index }) => index)).toEqual([-10, -9, -8, -7, -6, -5, -4, -3, -2, -1, 0]);
  });
});
