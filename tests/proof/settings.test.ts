import { describe, expect, it } from "vitest";
import type { Crossover, Limiter, Output, SettingProof } from "../../src/model/index.ts";
import { prove } from "../../src/proof/index.ts";
import { changed, item, proveSamples, small, unitOf } from "./samples.ts";

const limiter: Limiter = { enabled: true, thresholdDbfs: -6, attackMs: 2, releaseMs: 100 };
const highPass: Crossover = { family: "linkwitz-riley", order: 4, frequencyHz: 1000 };

/** The verdict on one setting of the small screen's left hf output; undefined when it is equal. */
function verdictOn(
  setting: SettingProof["setting"],
  before: Partial<Output>,
  after: typeof before,
): string | undefined {
  const withOutput = (values: typeof before) =>
    changed(small, ({ outputs }) => {
      const output = item(outputs, "left-hf");
      for (const name of ["limiter", "highPass", "lowPass", "fir"] as const) delete output[name];
      Object.assign(output, values);
    });
  const { settings } = proveSamples(withOutput(before), withOutput(after));
  return settings.find((item) => item.setting === setting && item.feedId === "left/hf")?.verdict;
}

describe("limiters", () => {
  it.each([
    ["the same", limiter, limiter, undefined],
    ["none on either side", undefined, undefined, undefined],
    ["switched off on either side", { ...limiter, enabled: false }, undefined, undefined],
    ["rounded", limiter, { ...limiter, thresholdDbfs: -5.75 }, "within-tolerance"],
    ["rounded down", limiter, { ...limiter, thresholdDbfs: -6.25 }, "within-tolerance"],
    ["attack rounded", limiter, { ...limiter, attackMs: 2.1 }, "within-tolerance"],
    ["higher", limiter, { ...limiter, thresholdDbfs: -5.5 }, "weaker"],
    ["lower", limiter, { ...limiter, thresholdDbfs: -9 }, "changed"],
    ["slower to act", limiter, { ...limiter, attackMs: 3 }, "weaker"],
    ["faster to act", limiter, { ...limiter, attackMs: 1 }, "changed"],
    ["slower to release", limiter, { ...limiter, releaseMs: 200 }, "changed"],
    ["attack from nothing", { ...limiter, attackMs: 0 }, limiter, "weaker"],
    ["lost", limiter, undefined, "lost"],
    ["switched off", limiter, { ...limiter, enabled: false }, "lost"],
    ["new", undefined, limiter, "new"],
  ] as const)("%s", (_name, before, after, verdict) => {
    expect(verdictOn("limiter", before ? { limiter: before } : {}, after ? { limiter: after } : {})).toBe(
      verdict,
    );
  });
});

describe("high-passes", () => {
  it.each([
    ["the same", highPass, highPass, undefined],
    [
      "half a step of 1/24 octave away",
      highPass,
      { ...highPass, frequencyHz: 1000 * 2 ** (1 / 48) },
      "within-tolerance",
    ],
    ["higher", highPass, { ...highPass, frequencyHz: 1200 }, "changed"],
    ["lower", highPass, { ...highPass, frequencyHz: 900 }, "weaker"],
    ["steeper", highPass, { ...highPass, order: 8 }, "changed"],
    ["less steep", highPass, { ...highPass, order: 2 }, "weaker"],
    ["of another family", highPass, { ...highPass, family: "butterworth" }, "changed"],
    [
      "of another normalization",
      { family: "bessel", order: 4, frequencyHz: 1000, normalization: "phase" },
      { family: "bessel", order: 4, frequencyHz: 1000, normalization: "magnitude" },
      "changed",
    ],
    ["lost", highPass, undefined, "lost"],
    ["new", undefined, highPass, "new"],
  ] as const)("%s", (_name, before, after, verdict) => {
    expect(verdictOn("high-pass", before ? { highPass: before } : {}, after ? { highPass: after } : {})).toBe(
      verdict,
    );
  });
});

describe("FIR filters", () => {
  const fir = { taps: [0.25, 0.5, 0.25] };

  it.each([
    ["the same", fir, structuredClone(fir), undefined],
    ["bypassed on either side", { ...fir, enabled: false }, undefined, undefined],
    ["another", fir, { taps: [0.25, 0.4, 0.25] }, "changed"],
    ["lost", fir, undefined, "lost"],
    ["bypassed", fir, { ...fir, enabled: false }, "lost"],
    ["new", undefined, fir, "new"],
  ] as const)("%s", (_name, before, after, verdict) => {
    expect(verdictOn("fir", before ? { fir: before } : {}, after ? { fir: after } : {})).toBe(verdict);
  });
});

describe("fader settings", () => {
  const other = changed(small, ({ operation, presets }) => {
    operation.faderMark = operation.faderMark === 5 ? 4 : 5;
    for (const preset of presets) delete preset.faderMark;
  });

  it("are compared as levels where both scales are known", () => {
    const unit = unitOf(small);
    const scaled = {
      ...unit,
      fader: { ...unit.fader!, marks: unit.fader!.marks.map((m) => ({ ...m, mark: m.mark / 10 })) },
    };
    const tenth = changed(small, ({ operation, presets }) => {
      operation.faderMark /= 10;
      for (const preset of presets) if (preset.faderMark !== undefined) preset.faderMark /= 10;
    });
    expect(prove(small, tenth, { beforeUnit: unit, afterUnit: scaled }).verdict).toBe("equal");
    expect(prove(small, tenth, { beforeUnit: unit, afterUnit: unit }).verdict).toBe("differs");
  });

  it("are compared as marks where a scale is unknown", () => {
    const { settings } = prove(small, other, { beforeUnit: {}, afterUnit: unitOf(other) });
    expect(
      settings.find(({ setting, presetId }) => setting === "fader" && presetId === undefined),
    ).toMatchObject({
      verdict: "changed",
      differences: [
        { name: "faderMark", before: small.operation.faderMark, after: other.operation.faderMark },
      ],
    });
  });
});
