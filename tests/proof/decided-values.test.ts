import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Configuration, Crossover, Limiter } from "../../src/model/index.ts";
import type { GivenUp } from "../../src/proof/index.ts";
import { changed, type Draft, feedsWith, item, large, pathsOf, proveSamples } from "./samples.ts";

type Change = (draft: Draft<Configuration>) => void;

const SUB = large.outputs.find(
  ({ feeds }) => feeds.kind === "loudspeaker" && feeds.loudspeakerId.startsWith("sub"),
)!;
const SUB_FEED = SUB.feeds.kind === "loudspeaker" ? `${SUB.feeds.loudspeakerId}/${SUB.feeds.wayId}` : "";

/** As for a unit that has Linkwitz-Riley filters alone: 48 dB an octave in the place of the high-pass of a sub. */
const HIGH_PASS: Crossover = { family: "linkwitz-riley", order: 8, frequencyHz: 31.5 };
const highPass: GivenUp = {
  kind: "setting",
  setting: "high-pass",
  feedId: SUB_FEED,
  decided: HIGH_PASS,
  accepts: "weaker-protection",
};

const settingsOf = (proof: ReturnType<typeof proveSamples>) =>
  proof.settings.map(({ setting, feedId, verdict }) => [setting, feedId, verdict]);

describe("a high-pass that somebody decided on", () => {
  const with_ = (value: Crossover | undefined) =>
    changed(large, (draft) => {
      const output = item(draft.outputs, SUB.id);
      if (value === undefined) delete output.highPass;
      else output.highPass = { ...value };
    });

  it("counts as changed by decision with the value that was decided", () => {
    const proof = proveSamples(large, with_(HIGH_PASS), { givenUp: [highPass] });
    expect(proof.verdict).not.toBe("differs");
    expect(settingsOf(proof)).toEqual([["high-pass", SUB_FEED, "changed-by-decision"]]);
  });

  it.each<[string, Crossover | undefined]>([
    ["removed", undefined],
    ["of a lower order", { ...HIGH_PASS, order: 4 }],
    ["at a lower corner", { ...HIGH_PASS, frequencyHz: 20 }],
    ["of another family", { ...HIGH_PASS, family: "butterworth" }],
    ["far above, where the sub is no longer heard", { ...HIGH_PASS, frequencyHz: 120 }],
  ])("does not excuse one that is %s", (_, value) => {
    const proof = proveSamples(large, with_(value), { givenUp: [highPass] });
    expect(proof.verdict).toBe("differs");
    expect(settingsOf(proof)).not.toContainEqual(["high-pass", SUB_FEED, "changed-by-decision"]);
  });

  it("says what was decided where something else is there", () => {
    const proof = proveSamples(large, with_({ ...HIGH_PASS, frequencyHz: 20 }), { givenUp: [highPass] });
    expect(proof.settings[0]).toMatchObject({
      verdict: "weaker",
      differences: expect.arrayContaining([
        { name: "frequencyHz", before: SUB.highPass?.frequencyHz ?? null, after: 20, decided: 31.5 },
      ]),
    });
  });

  it("needs the word of the decision for what protects less than before", () => {
    const weaker = { ...SUB.highPass!, order: 2 };
    const { accepts: _, ...unaccepted } = { ...highPass, decided: weaker } as typeof highPass & {
      readonly accepts: string;
    };
    expect(proveSamples(large, with_(weaker), { givenUp: [unaccepted as GivenUp] }).verdict).toBe("differs");
    const accepted = { ...unaccepted, accepts: "weaker-protection" } as GivenUp;
    expect(proveSamples(large, with_(weaker), { givenUp: [accepted] }).verdict).not.toBe("differs");
  });

  it("does not excuse a filter that acts beside it", () => {
    const beside = changed(with_(HIGH_PASS), (draft) => {
      item(draft.outputs, SUB.id).filters.push({
        id: "x",
        kind: "peaking",
        frequencyHz: 63,
        gainDb: 6,
        q: 1,
      });
    });
    const proof = proveSamples(large, beside, { givenUp: [highPass] });
    expect(proof.verdict).toBe("differs");
    expect(feedsWith(proof, "audible")).toEqual([SUB_FEED]);
    expect(pathsOf(proof).find(({ feedId }) => feedId === SUB_FEED)!.reasons).toContain("not-as-decided");
  });
});

describe("a limiter that somebody decided on", () => {
  const LIMITED = large.outputs.filter(({ limiter }) => limiter?.enabled === true).slice(0, 8);
  const feedOf = ({ feeds }: Configuration["outputs"][number]) =>
    feeds.kind === "loudspeaker" ? `${feeds.loudspeakerId}/${feeds.wayId}` : feeds.kind;
  const decided = ({ thresholdDbfs, attackMs, releaseMs }: Limiter): Limiter => ({
    enabled: true,
    thresholdDbfs: thresholdDbfs - 1,
    attackMs: attackMs / 2,
    releaseMs: releaseMs * 2,
  });
  const givenUp = LIMITED.map(
    (output): GivenUp => ({
      kind: "setting",
      setting: "limiter",
      feedId: feedOf(output),
      decided: decided(output.limiter!),
    }),
  );
  const withLimiters = (change: (limiter: Draft<Limiter>) => Draft<Limiter> | undefined) =>
    changed(large, (draft) => {
      for (const { id, limiter } of LIMITED) {
        const now = change({ ...decided(limiter!) });
        const output = item(draft.outputs, id);
        if (now === undefined) delete output.limiter;
        else output.limiter = now;
      }
    });

  it("is on eight outputs", () => expect(LIMITED).toHaveLength(8));

  it("counts as changed by decision with the values that were decided", () => {
    const proof = proveSamples(
      large,
      withLimiters((limiter) => limiter),
      { givenUp },
    );
    expect(proof.verdict).toBe("equal");
    expect(new Set(proof.settings.map(({ verdict }) => verdict))).toEqual(new Set(["changed-by-decision"]));
  });

  it.each<[string, (limiter: Draft<Limiter>) => Draft<Limiter> | undefined, string]>([
    ["removed", () => undefined, "lost"],
    ["switched off", (limiter) => ({ ...limiter, enabled: false }), "lost"],
    ["at 0 dBFS", (limiter) => ({ ...limiter, thresholdDbfs: 0 }), "weaker"],
    [
      "half a dB higher than decided",
      (limiter) => ({ ...limiter, thresholdDbfs: limiter.thresholdDbfs + 0.5 }),
      "weaker",
    ],
    ["slower than decided", (limiter) => ({ ...limiter, attackMs: limiter.attackMs * 1.5 }), "weaker"],
  ])("does not excuse one that is %s", (_, change, verdict) => {
    const proof = proveSamples(large, withLimiters(change), { givenUp });
    expect(proof.verdict).toBe("differs");
    expect(proof.settings.map((setting) => setting.verdict)).toEqual(LIMITED.map(() => verdict));
  });

  it("excuses no value but the one that was decided", () => {
    const { id, limiter } = LIMITED[0]!;
    fc.assert(
      fc.property(
        fc.record({
          enabled: fc.boolean(),
          thresholdDbfs: fc.integer({ min: -400, max: 0 }).map((value) => value / 10),
          attackMs: fc.integer({ min: 1, max: 1000 }).map((value) => value / 10),
          releaseMs: fc.integer({ min: 10, max: 20_000 }).map((value) => value / 10),
        }),
        (value) => {
          const wanted = decided(limiter!);
          const after = changed(large, (draft) => {
            item(draft.outputs, id).limiter = value;
          });
          const proof = proveSamples(large, after, { givenUp: givenUp.slice(0, 1) });
          const near = (a: number, b: number) => Math.max(a, b) / Math.min(a, b) <= 1.1 + 1e-6;
          const met =
            value.enabled &&
            Math.abs(value.thresholdDbfs - wanted.thresholdDbfs) <= 0.3 + 1e-6 &&
            near(value.attackMs, wanted.attackMs) &&
            near(value.releaseMs, wanted.releaseMs);
          expect(proof.verdict === "differs").toBe(!met);
        },
      ),
      { numRuns: 12 },
    );
  });
});

describe("an FIR filter that was dropped by decision", () => {
  const FEED = "left/hf";
  const before = changed(large, (draft) => {
    item(draft.outputs, "left-hf").fir = { taps: [0.1, 0.2, 0.4, 0.2, 0.1] };
  });
  const givenUp: readonly GivenUp[] = [
    { kind: "setting", setting: "fir", feedId: FEED, decided: null, accepts: "weaker-protection" },
  ];
  const without = (change: Change = () => {}) =>
    changed(large, (draft) => {
      change(draft);
    });

  it("covers what it did to sound", () => {
    expect(proveSamples(before, without()).verdict).toBe("differs");
    const proof = proveSamples(before, without(), { givenUp });
    expect(proof.verdict).toBe("equal");
    expect(feedsWith(proof, "changed-by-decision")).toEqual([FEED]);
    expect(settingsOf(proof)).toEqual([["fir", FEED, "left-out"]]);
  });

  it.each<[string, Change]>([
    [
      "6 dB more",
      (draft) => {
        item(draft.outputs, "left-hf").gainDb += 6;
      },
    ],
    [
      "0.5 dB more",
      (draft) => {
        item(draft.outputs, "left-hf").gainDb += 0.5;
      },
    ],
    [
      "another filter",
      (draft) => {
        item(draft.outputs, "left-hf").filters.push({
          id: "x",
          kind: "peaking",
          frequencyHz: 5000,
          gainDb: 4,
          q: 2,
        });
      },
    ],
    [
      "another FIR filter",
      (draft) => {
        item(draft.outputs, "left-hf").fir = { taps: [2] };
      },
    ],
    [
      "no high-pass",
      (draft) => {
        delete item(draft.outputs, "left-hf").highPass;
      },
    ],
    [
      "another polarity",
      (draft) => {
        const output = item(draft.outputs, "left-hf");
        output.polarity = output.polarity === "normal" ? "inverted" : "normal";
      },
    ],
  ])("does not excuse %s", (_, change) => {
    const proof = proveSamples(before, without(change), { givenUp });
    expect(proof.verdict).toBe("differs");
  });
});

describe("an output that was muted by decision, since nobody settled what guards it", () => {
  const givenUp: readonly GivenUp[] = [
    { kind: "setting", setting: "high-pass", feedId: "left/hf", decided: "muted" },
    { kind: "setting", setting: "mute", feedId: "left/hf", decided: true },
  ];
  const withMute = (mute: boolean) =>
    changed(large, (draft) => {
      const output = item(draft.outputs, "left-hf");
      output.highPass = { family: "linkwitz-riley", order: 2, frequencyHz: 500 };
      output.mute = mute;
    });

  it("is left out as long as it is muted", () => {
    const proof = proveSamples(large, withMute(true), { givenUp });
    expect(proof.verdict).toBe("equal");
    expect(settingsOf(proof)).toEqual([
      ["high-pass", "left/hf", "left-out"],
      ["mute", "left/hf", "left-out"],
    ]);
  });

  it("differs once it plays", () => {
    const proof = proveSamples(large, withMute(false), { givenUp });
    expect(proof.verdict).toBe("differs");
    expect(settingsOf(proof).map(([setting, , verdict]) => [setting, verdict])).toEqual([
      ["high-pass", "weaker"],
      ["mute", "changed"],
    ]);
  });
});

describe("fader settings, paging and the emergency mute that somebody decided on", () => {
  const preset = large.presets.find(({ faderMark }) => faderMark !== undefined)!;
  const at = (mark: number) =>
    changed(large, (draft) => {
      item(draft.presets, preset.id).faderMark = mark;
    });
  const givenUp: readonly GivenUp[] = [
    { kind: "setting", setting: "fader", presetId: preset.id, decided: preset.faderMark! - 1 },
  ];

  it("excuse the mark that was decided, of that preset alone", () => {
    expect(proveSamples(large, at(preset.faderMark! - 1), { givenUp }).verdict).toBe("equal");
    expect(proveSamples(large, at(preset.faderMark! + 2), { givenUp }).verdict).toBe("differs");
    expect(proveSamples(large, at(preset.faderMark!), { givenUp }).verdict).toBe("differs");
    const start = changed(large, (draft) => {
      draft.operation.faderMark -= 1;
    });
    expect(proveSamples(large, start, { givenUp }).verdict).toBe("differs");
  });

  it.each(["emergency-mute", "paging"] as const)(
    "excuse that %s is gone, and no other change of it",
    (setting) => {
      const key = setting === "paging" ? "paging" : "emergencyMute";
      const decided: readonly GivenUp[] = [
        { kind: "setting", setting, decided: null, accepts: "weaker-protection" },
      ];
      const gone = changed(large, (draft) => {
        delete draft.operation[key];
      });
      expect(proveSamples(large, gone).verdict).toBe("differs");
      expect(proveSamples(large, gone, { givenUp: decided }).settings.map(({ verdict }) => verdict)).toEqual([
        "left-out",
      ]);
      const { accepts: _, ...unaccepted } = decided[0] as { readonly accepts: string } & GivenUp;
      expect(proveSamples(large, gone, { givenUp: [unaccepted as GivenUp] }).verdict).toBe("differs");
      const other = changed(large, ({ operation }) => {
        if (key === "paging") operation.paging!.programDuckDb += 12;
        else
          operation.emergencyMute!.release =
            operation.emergencyMute!.release === "automatic" ? "by-hand" : "automatic";
      });
      expect(proveSamples(large, other, { givenUp: decided }).verdict).toBe("differs");
    },
  );
});
