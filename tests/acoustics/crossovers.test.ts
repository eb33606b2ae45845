import { describe, expect, it } from "vitest";
import {
  acousticResponses,
  type CrossoverHalf,
  cascadeResponse,
  crossoverSections,
  frequencyAxis,
  frequencyGrid,
  loudspeakerSums,
} from "../../src/acoustics/index.ts";
import { EXAMPLE, output } from "./example-configuration.ts";
import { crossoverOf, readReference, sideOf, Worst } from "./reference.ts";

interface CrossoverCase {
  id: string;
  kind: string;
  family: string;
  order: number;
  type: string;
  cornerHz: number;
  cornersHz: [number, number];
  sampleRateHz: number;
  norm?: string;
  magnitudeDb: number[];
  phaseRad: number[];
  atCorner: { magnitudeDb: number; phaseRad: number };
  sumMagnitudeDb: (number | null)[];
  sumWithHighPassInvertedMagnitudeDb: (number | null)[];
  eachWayAtCornerDb: number;
  phaseLowMinusHighAtCornerDeg: number;
  polarityForFlattestSum: "normal" | "inverted" | "either";
  polarity: { lf: 1 | -1; mf: 1 | -1; hf: 1 | -1 };
}

// Source: scipy.signal.butter and scipy.signal.bessel (SciPy 1.17.1), with origins in tests/reference/README.md.
const reference = readReference<{ frequenciesHz: number[]; cases: CrossoverCase[] }>("crossover-response");
const of = (kind: string) => reference.cases.filter((c) => c.kind === kind);

describe("crossover filters", () => {
  it("respond as the table says within 6e-9 dB and 6e-10 rad (the table has ten digits)", () => {
    const worst = new Worst();
    for (const c of of("filter")) {
      const sections = crossoverSections(crossoverOf(c), sideOf(c.type), c.sampleRateHz);
      worst.see(cascadeResponse(sections, frequencyAxis(c.sampleRateHz, reference.frequenciesHz)), c);
      worst.see(cascadeResponse(sections, frequencyAxis(c.sampleRateHz, [c.cornerHz])), {
        magnitudeDb: [c.atCorner.magnitudeDb],
        phaseRad: [c.atCorner.phaseRad],
      });
    }
    expect(of("filter")).toHaveLength(34);
    expect(worst.magnitudeDb).toBeLessThan(6e-9);
    expect(worst.phaseRad).toBeLessThan(6e-10);
  });
});

/** The loudspeaker of the reference: one low-pass, one high-pass, perhaps a band between, nothing else. */
function sumOf(
  ways: readonly { highPass?: CrossoverHalf; lowPass?: CrossoverHalf; inverted?: boolean }[],
  sampleRateHz: number,
  frequenciesHz: ArrayLike<number>,
) {
  const outputs = ways.map(({ inverted, ...halves }, k) =>
    output(`out-${k}`, ["box", `way-${k}`], { ...halves, polarity: inverted ? "inverted" : "normal" }),
  );
  const configuration = {
    ...EXAMPLE,
    unit: { sampleRateHz },
    outputs,
    loudspeakers: [{ id: "box", ways: ways.map((_, k) => ({ id: `way-${k}` })) }],
  };
  const [sum, ...others] = loudspeakerSums(acousticResponses(configuration, { frequenciesHz }));
  expect(others).toEqual([]);
  return sum!;
}

describe("sums of ways", () => {
  const twoWays = of("sum");

  it("are as the table says within 6e-9 dB above −60 dB, and 1e-8 in amplitude below", () => {
    let worst = 0;
    for (const c of twoWays) {
      const half = crossoverOf(c);
      for (const inverted of [false, true]) {
        const ways = [{ lowPass: half }, { highPass: half, inverted }];
        const { sum } = sumOf(ways, c.sampleRateHz, reference.frequenciesHz);
        const expected = inverted ? c.sumWithHighPassInvertedMagnitudeDb : c.sumMagnitudeDb;
        expected.forEach((level, k) => {
          const expectedDb = level ?? Number.NEGATIVE_INFINITY;
          const got = sum.magnitudeDb[k]!;
          if (expectedDb > -60) worst = Math.max(worst, Math.abs(got - expectedDb));
          else expect(Math.abs(10 ** (got / 20) - 10 ** (expectedDb / 20))).toBeLessThan(1e-8);
        });
      }
    }
    expect(twoWays).toHaveLength(17);
    expect(worst).toBeLessThan(6e-9);
  });

  it("of three ways are as the table says within 6e-9 dB", () => {
    for (const c of of("threeWaySum")) {
      const [low, high] = c.cornersHz.map((cornerHz) => crossoverOf({ ...c, cornerHz }));
      const ways = [
        { lowPass: low!, inverted: c.polarity.lf < 0 },
        { highPass: low!, lowPass: high!, inverted: c.polarity.mf < 0 },
        { highPass: high!, inverted: c.polarity.hf < 0 },
      ];
      const { sum, pairs } = sumOf(ways, c.sampleRateHz, reference.frequenciesHz);
      c.sumMagnitudeDb.forEach((level, k) => {
        expect(Math.abs(sum.magnitudeDb[k]! - level!)).toBeLessThan(6e-9);
      });
      expect(pairs.map((pair) => [pair.lowerWayId, pair.upperWayId])).toEqual([
        ["way-0", "way-1"],
        ["way-1", "way-2"],
      ]);
    }
    expect(of("threeWaySum")).toHaveLength(2);
  });

  it.each(twoWays)("$id: level, phase and flatter polarity at the crossover", (c) => {
    const half = crossoverOf(c);
    const { pairs } = sumOf([{ lowPass: half }, { highPass: half }], c.sampleRateHz, frequencyGrid());
    const crossing = pairs[0]!.crossing!;
    expect(Math.abs(Math.log2(crossing.frequencyHz / c.cornerHz))).toBeLessThan(1e-3);
    expect(Math.abs(crossing.levelDb - c.eachWayAtCornerDb)).toBeLessThan(1e-3);
    const turn = crossing.phaseDifferenceDeg - c.phaseLowMinusHighAtCornerDeg;
    expect(Math.abs(turn - 360 * Math.round(turn / 360))).toBeLessThan(0.01);
    const names = { normal: "as-set", inverted: "inverted", either: "either" } as const;
    expect(crossing.flatter).toBe(names[c.polarityForFlattestSum]);
  });
});
