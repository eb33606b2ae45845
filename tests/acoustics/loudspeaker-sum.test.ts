import { describe, expect, it } from "vitest";
import { acousticResponses, type CrossoverHalf, loudspeakerSums } from "../../src/acoustics/index.ts";
import { crossover, EXAMPLE, output } from "./example-configuration.ts";

function pairOf(lowPass: CrossoverHalf | undefined, highPass: CrossoverHalf | undefined, rest = {}) {
  const outputs = [
    output("low", ["box", "lf"], { lowPass, ...rest }),
    output("high", ["box", "hf"], { highPass }),
  ];
  const configuration = {
    ...EXAMPLE,
    outputs,
    loudspeakers: [{ id: "box", ways: [{ id: "hf" }, { id: "lf" }] }],
  };
  return loudspeakerSums(acousticResponses(configuration))[0]!.pairs[0]!;
}

const riley = (frequencyHz: number) => crossover("linkwitz-riley", 4, frequencyHz);

describe("ways of a loudspeaker", () => {
  it("of one Linkwitz-Riley corner meet without overlap or gap, 6.02 dB down, in phase, flat", () => {
    const { overlapOctaves, crossing } = pairOf(riley(800), riley(800));
    expect(Math.abs(overlapOctaves)).toBeLessThan(1e-3);
    expect(crossing!.frequencyHz).toBeCloseTo(800, 0);
    expect(crossing!.levelDb).toBeCloseTo(-6.02, 2);
    expect(crossing!.phaseDifferenceDeg).toBeCloseTo(0, 6);
    expect(crossing!.sumDb).toBeCloseTo(0, 2);
    expect(crossing!.sumInvertedDb).toBeLessThan(-100);
    expect(crossing!.rippleDb).toBeLessThan(1e-9);
    expect(crossing!.flatter).toBe("as-set");
  });

  it("tell gap and overlap in octaves", () => {
    expect(pairOf(riley(400), riley(1600)).overlapOctaves).toBeCloseTo(-2, 2);
    expect(pairOf(riley(1600), riley(400)).overlapOctaves).toBeCloseTo(2, 2);
    expect(pairOf(riley(400), riley(1600)).crossing!.frequencyHz).toBeCloseTo(800, -1);
  });

  it("have no crossing where nothing hands over", () => {
    const pair = pairOf(undefined, undefined);
    expect(pair.crossing).toBeUndefined();
    expect(pair.overlapOctaves).toBeCloseTo(Math.log2(1000), 1);
  });

  it("are in phase again when an inverted way is turned over", () => {
    const { crossing } = pairOf(riley(800), riley(800), { polarity: "inverted" });
    expect(Math.abs(crossing!.phaseDifferenceDeg)).toBeCloseTo(180, 6);
    expect(crossing!.flatter).toBe("inverted");
    expect(crossing!.rippleInvertedDb).toBeLessThan(1e-9);
  });

  it("turn against each other by a delay: a quarter period at the crossover is 90°", () => {
    const { crossing } = pairOf(riley(800), riley(800), { delayMs: 1000 / 800 / 4 });
    expect(crossing!.phaseDifferenceDeg).toBeCloseTo(-90, 1);
    expect(crossing!.sumDb).toBeCloseTo(-3.01, 1);
    expect(crossing!.flatter).toBe("either");
  });

  it("count with gain, delay and driver EQ, or with crossovers and polarity alone", () => {
    const responses = acousticResponses(EXAMPLE);
    const [settings] = loudspeakerSums(responses);
    const [crossovers] = loudspeakerSums(responses, { of: "crossovers" });
    expect(settings!.ways.map(({ wayId, outputIds }) => [wayId, ...outputIds])).toEqual([
      ["lf", "out-1"],
      ["hf", "out-2"],
    ]);
    expect(settings!.pairs[0]!.crossing!.frequencyHz).not.toBeCloseTo(800, -1);
    expect(crossovers!.pairs[0]!.crossing!.frequencyHz).toBeCloseTo(800, 0);
    expect(crossovers!.pairs[0]!.crossing!.flatter).toBe("inverted");
  });

  it("are put in the order of their bands, whatever the order of the outputs", () => {
    const outputs = [
      output("high", ["box", "hf"], { highPass: riley(800) }),
      output("low", ["box", "lf"], { lowPass: riley(800) }),
    ];
    const loudspeakers = [{ id: "box", ways: [{ id: "hf" }, { id: "lf" }] }];
    const [sum] = loudspeakerSums(acousticResponses({ ...EXAMPLE, outputs, loudspeakers }));
    expect(sum!.ways.map(({ wayId }) => wayId)).toEqual(["lf", "hf"]);
    expect(sum!.pairs[0]!.crossing!.frequencyHz).toBeCloseTo(800, 0);
  });

  it("are summed for every program channel that reaches the loudspeaker", () => {
    const sums = loudspeakerSums(acousticResponses(EXAMPLE)).map((s) => `${s.loudspeakerId} ${s.channelId}`);
    expect(sums).toEqual(["screen-left L", "screen-right R", "screen-right L"]);
  });

  it("fed by two outputs add up, and count once when crossovers alone are asked for", () => {
    const outputs = [output("a", ["box", "lf"]), output("b", ["box", "lf"])];
    const responses = acousticResponses({
      ...EXAMPLE,
      outputs,
      loudspeakers: [{ id: "box", ways: [{ id: "lf" }] }],
    });
    expect(loudspeakerSums(responses)[0]!.sum.magnitudeDb[100]).toBeCloseTo(6.0206, 4);
    expect(loudspeakerSums(responses, { of: "crossovers" })[0]!.sum.magnitudeDb[100]).toBeCloseTo(0, 9);
  });
});
