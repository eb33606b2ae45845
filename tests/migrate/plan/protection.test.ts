import { describe, expect, it } from "vitest";
import { planMigration } from "../../../src/migrate/plan/index.ts";
import type { Configuration, Output, UnitProfile } from "../../../src/model/index.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "./example.ts";

function withOutput(id: string, change: (output: Output) => Output): Configuration {
  return {
    ...SCREEN,
    outputs: SCREEN.outputs.map((output) => (output.id === id ? change(output) : output)),
  };
}

function planned(old: Configuration, to: UnitProfile, answers = ANSWERS) {
  const plan = planMigration(old, { from: OLD_UNIT, to, decisions: decisionsWith(answers) });
  const output = (id: string) => plan.configuration.outputs.find((item) => item.id === id)!;
  const question = (id: string) => plan.questions.find((item) => item.id === id);
  return { plan, output, question };
}

describe("crossovers and protective filters", () => {
  it("go to the next value of the unit, the same on both sides of a crossover", () => {
    const { plan, output } = planned(SCREEN, NEW_UNIT);
    // 852 Hz on steps of 5 Hz.
    expect(output("left-lf").lowPass).toEqual({ family: "linkwitz-riley", order: 4, frequencyHz: 850 });
    expect(output("left-hf").highPass).toEqual({ family: "linkwitz-riley", order: 4, frequencyHz: 850 });
    expect(output("left-lf").highPass).toEqual({ family: "butterworth", order: 2, frequencyHz: 40 });
    const item = plan.items.find(({ place }) => place.address === "outputs/left-hf/highPass" && place);
    expect(item?.step).toBe("protection");
    expect(plan.counts.rounded).toBeGreaterThan(0);
  });

  it("never go down so far that a driver is guarded noticeably less, and stay one crossover", () => {
    // 1010 Hz on steps of 1/24 octave: 1000 Hz is nearest. Order 4 then passes 0.35 dB more, order 8 would pass 0.69 dB.
    const frequencyHz = { kind: "log" as const, min: 20, max: 20000, referenceHz: 1000, perOctave: 24 };
    const families = [{ family: "linkwitz-riley" as const, orders: [4, 8] }];
    const ability = { families, frequencyHz };
    const from = {
      ...OLD_UNIT,
      outputs: {
        ...OLD_UNIT.outputs,
        highPass: { ...ability, frequencyHz: OLD_UNIT.outputs.highPass.frequencyHz },
      },
    };
    const to = { ...NEW_UNIT, outputs: { ...NEW_UNIT.outputs, highPass: ability, lowPass: ability } };
    for (const [order, corner] of [
      [4, 1000],
      [8, 1000 * 2 ** (1 / 24)],
    ] as const) {
      const half = { family: "linkwitz-riley" as const, order, frequencyHz: 1010 };
      const old: Configuration = {
        ...SCREEN,
        outputs: SCREEN.outputs.map(({ highPass: _, lowPass: __, ...output }) =>
          output.id.endsWith("hf") ? { ...output, highPass: half } : { ...output, lowPass: half },
        ),
      };
      const { configuration } = planMigration(old, { from, to, decisions: decisionsWith(ANSWERS) });
      const output = (id: string) => configuration.outputs.find((item) => item.id === id)!;
      expect(output("left-hf").highPass?.frequencyHz).toBeCloseTo(corner, 6);
      expect(output("left-lf").lowPass?.frequencyHz).toBe(output("left-hf").highPass?.frequencyHz);
    }
  });

  it("never round a high-pass below what the data sheet calls safe", () => {
    const old = withOutput("left-hf", (output) => ({
      ...output,
      highPass: { ...output.highPass!, frequencyHz: 801 },
    }));
    const { output } = planned(old, NEW_UNIT);
    // 800 Hz is nearest and safe; with a safe corner of 801 Hz only 805 Hz is.
    expect(output("left-hf").highPass?.frequencyHz).toBe(800);
    const stricter = {
      ...old,
      loudspeakers: old.loudspeakers.map((speaker) => ({
        ...speaker,
        ways: speaker.ways.map((way) => (way.id === "hf" ? { ...way, safeHighPassHz: 801 } : way)),
      })),
    };
    expect(planned(stricter, NEW_UNIT).output("left-hf").highPass?.frequencyHz).toBe(805);
  });

  it("are asked about where the family is missing, and the output is muted until it is decided", () => {
    const to: UnitProfile = {
      ...NEW_UNIT,
      outputs: {
        ...NEW_UNIT.outputs,
        highPass: {
          ...NEW_UNIT.outputs.highPass,
          families: [{ family: "butterworth", orders: [1, 2, 3, 4] }],
        },
      },
    };
    const { plan, output, question } = planned(SCREEN, to);
    expect(plan.decided).toBe(false);
    expect(output("left-hf").mute).toBe(true);
    expect(output("left-lf").mute).toBe(false);
    const asked = question("outputs/left-hf/highPass")!;
    expect(asked.unanswered.optionId).toBe("mute-output");
    const butterworth = asked.options.find(({ id }) => id.startsWith("butterworth-4"))!;
    // A Butterworth of order 4 passes up to 3.01 dB more around the corner of a Linkwitz-Riley of order 4 (−6.02 dB there).
    expect(Number(butterworth.numbers.maxChangeDb)).toBeGreaterThan(2.9);
    expect(Number(butterworth.numbers.maxChangeDb)).toBeLessThan(3.4);
    expect(butterworth.numbers).toHaveProperty("rippleDb");
    expect(butterworth.numbers).toHaveProperty("phaseDifferenceDeg");

    const weak = asked.options.find(({ weakensProtection }) => weakensProtection === true)!;
    const chosen = planned(SCREEN, to, [
      ...ANSWERS,
      { questionId: "outputs/*/highPass", optionId: weak.id, accepts: "weaker-protection" },
    ]);
    expect(chosen.plan.decided).toBe(true);
    expect(chosen.output("left-hf").mute).toBe(false);
    expect(chosen.output("left-hf").highPass?.family).toBe("butterworth");
    expect(chosen.plan.items.find(({ place }) => place.address === "outputs/left-hf/highPass")?.outcome).toBe(
      "rounded",
    );
  });

  it("know how Butterworth and Linkwitz-Riley ways sum: flat for the one, +3.01 dB for the other (handbook values)", () => {
    const to: UnitProfile = {
      ...NEW_UNIT,
      outputs: {
        ...NEW_UNIT.outputs,
        lowPass: { ...NEW_UNIT.outputs.lowPass, families: [{ family: "butterworth", orders: [4] }] },
      },
    };
    const { question } = planned(SCREEN, to);
    const { numbers } = question("outputs/left-lf/lowPass")!.options.find(({ id }) =>
      id.startsWith("butterworth-4"),
    )!;
    expect(Number(numbers.rippleNowDb)).toBeLessThan(0.05);
    expect(Number(numbers.sumDb)).toBeCloseTo(3.01, 1);
    expect(Number(numbers.rippleDb)).toBeGreaterThan(2);
  });
});

describe("limiters", () => {
  const withLimiter = (thresholdDbfs: number, attackMs: number, releaseMs: number) =>
    withOutput("left-hf", (output) => ({
      ...output,
      limiter: { enabled: true, thresholdDbfs, attackMs, releaseMs },
    }));

  it("are rounded a little to the side that protects: never higher, never slower, never much sooner over", () => {
    const { output, question } = planned(withLimiter(-6.2, 1.6, 104), NEW_UNIT);
    expect(question("outputs/left-hf/limiter")).toBeUndefined();
    expect(output("left-hf").limiter).toEqual({
      enabled: true,
      thresholdDbfs: -6.5,
      attackMs: 1.5,
      releaseMs: 100,
    });
  });

  it("are asked about where they would act otherwise, and what guards as well is recommended", () => {
    const limiter = {
      thresholdDbfs: { kind: "step" as const, min: -24, max: 0, step: 1 },
      attackMs: { kind: "list" as const, values: [0.5, 2, 10] },
      releaseMs: { kind: "list" as const, values: [50, 200, 500] },
    };
    const to = { ...NEW_UNIT, outputs: { ...NEW_UNIT.outputs, limiter } };
    const old = withLimiter(-6, 5, 100);
    const { output, question } = planned(old, to);
    expect(output("left-hf").mute).toBe(true);
    const asked = question("outputs/left-hf/limiter")!;
    expect(asked.recommended?.optionId).toBe("guards-as-well");
    // A release half as long heats the driver more, so the nearest values protect less.
    expect(asked.options.find(({ id }) => id === "nearest")?.weakensProtection).toBe(true);
    expect(asked.options[0]?.consequence).toContain(
      "attacks 2.50 times as fast; lets go 2.00 times as slowly",
    );
    const chosen = planned(old, to, [
      ...ANSWERS,
      { questionId: "outputs/*/limiter", optionId: "guards-as-well" },
    ]);
    expect(chosen.output("left-hf").limiter).toEqual({
      enabled: true,
      thresholdDbfs: -6,
      attackMs: 2,
      releaseMs: 200,
    });
    expect(chosen.output("left-hf").mute).toBe(false);
  });

  it("are asked about where they cannot act as early, and the nearest has to be accepted", () => {
    const { output, question } = planned(withLimiter(-6, 0.1, 100), NEW_UNIT);
    expect(output("left-hf").mute).toBe(true);
    const asked = question("outputs/left-hf/limiter")!;
    expect(asked.options.find(({ id }) => id === "nearest")?.weakensProtection).toBe(true);
    expect(asked.recommended).toBeUndefined();
  });

  it("that are switched off are no loss of protection", () => {
    const { limiter: _limiter, ...outputs } = NEW_UNIT.outputs;
    const old = {
      ...SCREEN,
      outputs: SCREEN.outputs.map((output) => ({
        ...output,
        limiter: { ...output.limiter!, enabled: false },
      })),
    };
    const { plan } = planned(old, { ...NEW_UNIT, outputs });
    expect(plan.decided).toBe(true);
    expect(plan.counts.lost).toBe(4 * 4);
  });
});

describe("FIR filters", () => {
  const fir = { taps: [0.25, 0.5, 0.25] };

  it("are kept tap by tap where they fit", () => {
    const old = withOutput("left-hf", (output) => ({ ...output, fir }));
    const plan = planMigration(old, { from: OLD_UNIT, to: OLD_UNIT });
    expect(plan.configuration).toEqual(old);
  });

  it("are asked about, never dropped, where they do not", () => {
    const old = withOutput("left-hf", (output) => ({ ...output, fir }));
    const { output, question } = planned(old, NEW_UNIT);
    expect(output("left-hf").mute).toBe(true);
    const leave = question("outputs/left-hf/fir")!.options.find(({ id }) => id === "leave-out")!;
    expect(leave.weakensProtection).toBe(true);
    // H = 0.5 + 0.5·cos ω: 0 dB at 0 Hz, −6.02 dB at a quarter of the sample rate; one sample of delay.
    expect(leave.numbers).toMatchObject({ taps: 3, delayMs: 0.021 });
    expect(Number(leave.numbers.maxDb)).toBeCloseTo(0, 2);
  });
});

describe("the emergency mute", () => {
  it("keeps its contact, and nothing takes its place by itself where the unit has none", () => {
    expect(planned(SCREEN, NEW_UNIT).plan.configuration.operation.emergencyMute?.connectorId).toBe(
      "control-1",
    );
    const to = { ...NEW_UNIT, operation: { ...NEW_UNIT.operation, emergencyMute: false } };
    const { plan, question } = planned(SCREEN, to);
    expect(plan.decided).toBe(false);
    const asked = question("operation/emergencyMute")!;
    expect(asked.recommended).toBeUndefined();
    expect(asked.options.find(({ id }) => id === "outside-the-unit")?.weakensProtection).toBe(true);
  });
});
