import { describe, expect, it } from "vitest";
import {
  type CrossoverHalf,
  crossoverSections,
  filterSections,
  firResponse,
  frequencyAxis,
  frequencyGrid,
  type GraphicEqualizer,
  graphicSections,
  type ParametricFilter,
} from "../../src/acoustics/index.ts";

const refusal = (pointer: string) =>
  expect.objectContaining({
    name: "BoothkeepError",
    code: "acoustics.invalid-filter",
    place: { pointer },
    message: expect.stringMatching(/./),
  });

const peaking = { kind: "peaking", frequencyHz: 1000, gainDb: 3, q: 1 };

describe("filters that cannot be computed are refused with their place", () => {
  it.each([
    ["at half the sample rate", { ...peaking, frequencyHz: 24_000 }, "/frequencyHz"],
    ["above half the sample rate", { ...peaking, frequencyHz: 30_000 }, "/frequencyHz"],
    ["at 0 Hz", { ...peaking, frequencyHz: 0 }, "/frequencyHz"],
    ["at a negative frequency", { ...peaking, frequencyHz: -50 }, "/frequencyHz"],
    ["at NaN Hz", { ...peaking, frequencyHz: Number.NaN }, "/frequencyHz"],
    ["with Q 0", { ...peaking, q: 0 }, "/q"],
    ["with a negative Q", { ...peaking, q: -1 }, "/q"],
    ["with Q NaN", { ...peaking, q: Number.NaN }, "/q"],
    ["with an infinite Q", { ...peaking, q: Number.POSITIVE_INFINITY }, "/q"],
    ["without Q", { kind: "notch", frequencyHz: 50 }, "/q"],
    ["with a gain above 60 dB", { ...peaking, gainDb: 60.1 }, "/gainDb"],
    ["with a gain below −60 dB", { ...peaking, gainDb: -61 }, "/gainDb"],
    ["with a gain that is a text", { ...peaking, gainDb: "3" }, "/gainDb"],
    ["that is a shelf without steepness", { kind: "low-shelf", frequencyHz: 80, gainDb: 3 }, ""],
    [
      "that is a shelf with Q and slope",
      { kind: "low-shelf", frequencyHz: 80, gainDb: 3, q: 1, slope: 1 },
      "",
    ],
    ["that is a shelf with slope 0", { kind: "high-shelf", frequencyHz: 80, gainDb: 3, slope: 0 }, "/slope"],
    ["that is a shelf too steep", { kind: "high-shelf", frequencyHz: 80, gainDb: 40, slope: 2 }, "/slope"],
    ["that is an all-pass of order 3", { kind: "all-pass", frequencyHz: 80, order: 3, q: 1 }, "/order"],
    ["that is an all-pass of order 2 without Q", { kind: "all-pass", frequencyHz: 80, order: 2 }, "/q"],
    ["of an unknown kind", { kind: "bell", frequencyHz: 80 }, "/kind"],
    ["of a kind that every object knows", { kind: "constructor", frequencyHz: 80 }, "/kind"],
  ])("%s", (_, filter, pointer) => {
    const place = "/outputs/3/filters/1";
    expect(() => filterSections(filter as unknown as ParametricFilter, 48_000, place)).toThrow(
      refusal(`${place}${pointer}`),
    );
  });

  it("whatever a bypassed filter holds", () => {
    expect(
      filterSections({ kind: "peaking", frequencyHz: 1e9, gainDb: 3, q: 0, enabled: false }, 48_000),
    ).toEqual([]);
  });
});

describe("crossovers that cannot be computed are refused with their place", () => {
  const half = { family: "butterworth", order: 4, frequencyHz: 500 };
  it.each([
    ["of order 9", { ...half, order: 9 }, "/order"],
    ["of order 0", { ...half, order: 0 }, "/order"],
    ["of order 2.5", { ...half, order: 2.5 }, "/order"],
    ["of an odd Linkwitz-Riley order", { ...half, family: "linkwitz-riley", order: 3 }, "/order"],
    ["of Bessel order 1", { ...half, family: "bessel", order: 1, normalization: "phase" }, "/order"],
    ["of an unknown family", { ...half, family: "elliptic" }, "/family"],
    ["of a Bessel without normalization", { ...half, family: "bessel" }, "/normalization"],
    [
      "of a Bessel with an unknown one",
      { ...half, family: "bessel", normalization: "delay" },
      "/normalization",
    ],
    ["of a Butterworth with normalization", { ...half, normalization: "phase" }, "/normalization"],
    ["at half the sample rate", { ...half, frequencyHz: 24_000 }, "/frequencyHz"],
    ["at NaN Hz", { ...half, frequencyHz: Number.NaN }, "/frequencyHz"],
  ])("%s", (_, settings, pointer) => {
    expect(() =>
      crossoverSections(settings as unknown as CrossoverHalf, "low-pass", 48_000, "/outputs/0/lowPass"),
    ).toThrow(refusal(`/outputs/0/lowPass${pointer}`));
  });
});

describe("graphic equalizers and FIRs that cannot be computed are refused with their place", () => {
  const flat = new Array<number>(10).fill(0);
  it.each([
    ["with another count of gains", { layout: "octave-10", gainsDb: [0, 1] }, "/gainsDb"],
    ["with a gain of NaN", { layout: "octave-10", gainsDb: flat.with(4, Number.NaN) }, "/gainsDb/4"],
    ["with a gain beyond 60 dB", { layout: "octave-10", gainsDb: flat.with(9, -60.5) }, "/gainsDb/9"],
    ["of an unknown layout", { layout: "octave-11", gainsDb: [...flat, 0] }, "/layout"],
    ["of a layout that every object knows", { layout: "toString", gainsDb: flat }, "/layout"],
  ])("%s", (_, graphic, pointer) => {
    expect(() => graphicSections(graphic as GraphicEqualizer, 48_000, { place: "/g" })).toThrow(
      refusal(`/g${pointer}`),
    );
  });

  it("with a band above half the sample rate, unless it is at 0 dB", () => {
    const gainsDb = new Array<number>(31).fill(0);
    expect(graphicSections({ layout: "third-octave-31", gainsDb }, 32_000)).toEqual([]);
    expect(() =>
      graphicSections({ layout: "third-octave-31", gainsDb: gainsDb.with(30, 1) }, 32_000),
    ).toThrow(refusal("/gainsDb/30"));
  });

  it.each([
    ["without taps", [], "/fir/taps"],
    ["with 4097 taps", new Array<number>(4097).fill(0), "/fir/taps"],
    ["with a tap of NaN", [0, Number.NaN], "/fir/taps/1"],
    ["with a tap beyond 60 dB", [1001], "/fir/taps/0"],
  ])("FIR %s", (_, taps, pointer) => {
    expect(() => firResponse({ taps }, frequencyAxis(48_000), "/fir")).toThrow(refusal(pointer));
  });

  it("takes 4096 taps", () => {
    const taps = new Array<number>(4096).fill(1 / 4096);
    expect(Math.hypot(firResponse({ taps }, frequencyAxis(48_000, [1e-6])).re[0]!)).toBeCloseTo(1, 9);
  });
});

describe("frequencies", () => {
  const refused = expect.objectContaining({ code: "acoustics.invalid-grid" });

  it("are 1/24 octave from 20 Hz to 20 kHz by default, through every third-octave center", () => {
    const grid = frequencyGrid();
    expect(grid).toHaveLength(241);
    expect(grid[0]).toBeCloseTo(19.9526, 4);
    expect(grid[240]).toBeCloseTo(19_952.6, 1);
    for (let x = -17; x <= 13; x++) {
      expect(Math.min(...grid.map((hz) => Math.abs(hz / (1000 * 10 ** (x / 10)) - 1)))).toBeLessThan(1e-12);
    }
    expect(frequencyAxis(32_000).frequenciesHz.at(-1)).toBeLessThan(16_000);
  });

  it.each([
    ["at half the sample rate", [24_000]],
    ["at 0 Hz", [0, 100]],
    ["that fall", [100, 50]],
    ["that repeat", [100, 100]],
    ["of NaN", [Number.NaN]],
  ])("%s are refused", (_, frequenciesHz) => {
    expect(() => frequencyAxis(48_000, frequenciesHz)).toThrow(refused);
  });

  it.each([
    { fromHz: 0 },
    { toHz: 10 },
    { toHz: Number.POSITIVE_INFINITY },
    { pointsPerOctave: 0 },
    { fromHz: Number.NaN },
  ])("grid %o is refused", (options) => {
    expect(() => frequencyGrid(options)).toThrow(refused);
  });

  it.each([8000, 31_999, 192_001, Number.NaN])("a sample rate of %d Hz is refused", (sampleRateHz) => {
    expect(() => frequencyAxis(sampleRateHz)).toThrow(refusal("/sampleRateHz"));
  });
});
