import { describe, expect, it } from "vitest";
import type { Configuration } from "../../src/model/index.ts";
import { changed, type Draft, feedsWith, item, large, pathsOf, proveSamples } from "./samples.ts";

const without = (presetId: string) =>
  changed(large, (draft) => {
    draft.presets = draft.presets.filter(({ id }) => id !== presetId);
  });

describe("what was given up by decision", () => {
  it("is told apart from what is missing, and does not count against the proof", () => {
    const after = without("archive-mono");
    const missing = proveSamples(large, after);
    expect(missing.verdict).toBe("differs");
    const decided = proveSamples(large, after, { givenUp: [{ kind: "preset", presetId: "archive-mono" }] });
    expect(decided.verdict).toBe("equal");
    expect(decided.counts.givenUp).toBe(missing.counts.missing);
    expect(decided.counts.missing).toBe(0);
    expect(
      item(
        decided.presets.map((preset) => ({ ...preset, id: preset.presetId })),
        "archive-mono",
      ),
    ).toMatchObject({
      verdict: "given-up",
    });
    expect(decided.groups[0]).toMatchObject({ verdict: "given-up", reasons: ["no-preset"] });
  });

  it("covers nothing else: another preset, or a fault elsewhere, still counts", () => {
    const after = without("archive-mono");
    const other = proveSamples(large, after, { givenUp: [{ kind: "preset", presetId: "feature-71" }] });
    expect(other.verdict).toBe("differs");
    const faulty = changed(after, ({ outputs }) => {
      item(outputs, "center-hf").polarity = "inverted";
    });
    const proof = proveSamples(large, faulty, { givenUp: [{ kind: "preset", presetId: "archive-mono" }] });
    expect(proof.verdict).toBe("differs");
    expect(feedsWith(proof, "audible")).toEqual(["center/hf"]);
  });

  it("can be a source, a program channel, a feed or a loudspeaker", () => {
    const noSource = changed(large, (draft) => {
      draft.presets = draft.presets.filter(({ sourceId }) => sourceId !== "disc");
      draft.sources = draft.sources.filter(({ id }) => id !== "disc");
    });
    expect(proveSamples(large, noSource, { givenUp: [{ kind: "source", sourceId: "disc" }] }).verdict).toBe(
      "equal",
    );

    const noNarration = changed(large, (draft) => {
      draft.outputs = draft.outputs.filter(({ feeds }) => feeds.kind !== "narration");
    });
    const feed = { kind: "feed", feed: "narration" } as const;
    expect(proveSamples(large, noNarration, { givenUp: [feed] }).verdict).toBe("equal");
    expect(proveSamples(large, noNarration, { givenUp: [{ kind: "channel", label: "VIN" }] }).verdict).toBe(
      "equal",
    );
    expect(
      proveSamples(large, noNarration, { givenUp: [{ ...feed, feed: "hearing-impaired" }] }).verdict,
    ).toBe("differs");

    const noLeft = changed(large, (draft) => {
      draft.outputs = draft.outputs.filter(({ id }) => !id.startsWith("left-"));
    });
    const proof = proveSamples(large, noLeft, { givenUp: [{ kind: "loudspeaker", loudspeakerId: "left" }] });
    expect(proof.verdict).toBe("equal");
    expect(
      proof.sums.filter(({ verdict }) => verdict === "given-up").map(({ loudspeakerId }) => loudspeakerId),
    ).toEqual(["left"]);
  });

  it("can be a setting, at one feed or at all", () => {
    const noLimiters = changed(large, ({ outputs }) => {
      for (const id of ["center-hf", "left-hf"]) delete item(outputs, id).limiter;
    });
    const one = proveSamples(large, noLimiters, {
      givenUp: [{ kind: "setting", setting: "limiter", feedId: "center/hf" }],
    });
    expect(one.settings.map(({ feedId, verdict }) => [feedId, verdict]).sort()).toEqual([
      ["center/hf", "given-up"],
      ["left/hf", "lost"],
    ]);
    expect(one.verdict).toBe("differs");
    const all = proveSamples(large, noLimiters, { givenUp: [{ kind: "setting", setting: "limiter" }] });
    expect(all.verdict).toBe("equal");
    expect(all.settings.map(({ verdict }) => verdict)).toEqual(["given-up", "given-up"]);
  });
});

describe("a crossover changed by decision", () => {
  const otherCrossover = (change: (draft: Draft<Configuration>) => void = () => {}) =>
    changed(large, (draft) => {
      for (const [id, side] of [
        ["left-mf", "lowPass"],
        ["left-hf", "highPass"],
      ] as const) {
        Object.assign(item(draft.outputs, id)[side]!, { family: "butterworth", order: 2 });
      }
      change(draft);
    });
  const givenUp = [
    { kind: "setting", setting: "low-pass", feedId: "left/mf" },
    { kind: "setting", setting: "high-pass", feedId: "left/hf" },
  ] as const;

  it("covers what it does to its paths and to the sum", () => {
    expect(proveSamples(large, otherCrossover()).verdict).toBe("differs");
    const proof = proveSamples(large, otherCrossover(), { givenUp });
    expect(proof.verdict).toBe("equal");
    expect(feedsWith(proof, "given-up")).toEqual(["left/hf", "left/mf"]);
    expect(pathsOf(proof).find(({ feedId }) => feedId === "left/hf")!.deviation!.responseDb).not.toBe(0);
    expect(proof.sums.find(({ loudspeakerId }) => loudspeakerId === "left")).toMatchObject({
      verdict: "given-up",
    });
  });

  it.each([
    [
      "polarity",
      (draft: Draft<Configuration>) => {
        item(draft.outputs, "left-hf").polarity = "inverted";
      },
    ],
    [
      "level",
      (draft: Draft<Configuration>) => {
        item(draft.outputs, "left-hf").gainDb += 1;
      },
    ],
    [
      "response",
      (draft: Draft<Configuration>) => {
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
      "delay",
      (draft: Draft<Configuration>) => {
        item(draft.outputs, "left-hf").delayMs += 1;
      },
    ],
  ] as const)("does not cover %s of the same paths", (reason, fault) => {
    const proof = proveSamples(large, otherCrossover(fault), { givenUp });
    expect(proof.verdict).toBe("differs");
    const audible = pathsOf(proof).filter(({ verdict }) => verdict === "audible");
    expect(new Set(audible.map(({ feedId }) => feedId))).toEqual(new Set(["left/hf"]));
    for (const { reasons } of audible) expect(reasons).toContain(reason);
  });
});

describe("an output muted by decision", () => {
  it("is given up with its paths and the sum that it belonged to", () => {
    const muted = changed(large, ({ outputs }) => {
      item(outputs, "left-hf").mute = true;
    });
    const proof = proveSamples(large, muted, {
      givenUp: [{ kind: "setting", setting: "mute", feedId: "left/hf" }],
    });
    expect(proof.verdict).toBe("equal");
    expect(feedsWith(proof, "given-up")).toEqual(["left/hf"]);
    expect(proof.sums.find(({ loudspeakerId }) => loudspeakerId === "left")!.verdict).toBe("given-up");
    const elsewhere = proveSamples(large, muted, {
      givenUp: [{ kind: "setting", setting: "mute", feedId: "left/mf" }],
    });
    expect(elsewhere.verdict).toBe("differs");
    expect(elsewhere.sums.find(({ loudspeakerId }) => loudspeakerId === "left")!.verdict).toBe("missing");
  });
});

/** The rear array on one side fed by the output of the side array, each channel 3 dB lower. */
function joined(change: (draft: Draft<Configuration>) => void = () => {}): {
  readonly after: Configuration;
  readonly decision: {
    readonly kind: "joined";
    readonly loudspeakerId: string;
    readonly intoLoudspeakerId: string;
  };
} {
  const into = outputOf("Lss");
  const from = outputOf("Lrs");
  const after = changed(large, (draft) => {
    draft.outputs = draft.outputs.filter(({ id }) => id !== from.id);
    item(draft.outputs, into.id).mix = [
      { channelId: "Lss", gainDb: -3 },
      { channelId: "Lrs", gainDb: -3 },
    ];
    change(draft);
  });
  return {
    after,
    decision: { kind: "joined", loudspeakerId: from.loudspeakerId, intoLoudspeakerId: into.loudspeakerId },
  };
}

function outputOf(channelId: string): { readonly id: string; readonly loudspeakerId: string } {
  for (const { id, feeds, mix } of large.outputs) {
    if (feeds.kind === "loudspeaker" && mix.some((part) => part.channelId === channelId)) {
      return { id, loudspeakerId: feeds.loudspeakerId };
    }
  }
  throw new Error(`nothing plays ${channelId}`);
}

describe("two arrays joined by decision", () => {
  it("differ without the decision, and are given up with it", () => {
    const { after, decision } = joined();
    const plain = proveSamples(large, after);
    expect(plain.verdict).toBe("differs");
    expect([plain.counts.missing, plain.counts.new, plain.counts.audible].every((count) => count > 0)).toBe(
      true,
    );
    const proof = proveSamples(large, after, { givenUp: [decision] });
    expect(proof.verdict).toBe("equal");
    expect(proof.counts.givenUp).toBe(plain.counts.missing + plain.counts.new + plain.counts.audible);
    const lower = pathsOf(proof).filter(
      ({ verdict, deviation }) => verdict === "given-up" && deviation !== undefined,
    );
    expect(new Set(lower.map(({ deviation }) => deviation!.levelDb))).toEqual(new Set([-3]));
  });

  it("excuse the level and nothing else of the array that still plays", () => {
    const outputId = outputOf("Lss").id;
    for (const fault of [
      (draft: Draft<Configuration>) => {
        item(draft.outputs, outputId).polarity = "inverted";
      },
      (draft: Draft<Configuration>) => {
        item(draft.outputs, outputId).delayMs += 2;
      },
      (draft: Draft<Configuration>) => {
        item(draft.outputs, outputId).highPass = { family: "butterworth", order: 4, frequencyHz: 400 };
      },
      (draft: Draft<Configuration>) => {
        item(draft.outputs, outputId).filters = [
          { id: "f", kind: "peaking", frequencyHz: 1000, gainDb: 6, q: 1 },
        ];
      },
    ]) {
      const { after, decision } = joined(fault);
      const proof = proveSamples(large, after, { givenUp: [decision] });
      expect(proof.verdict).toBe("differs");
      expect(proof.counts.audible).toBeGreaterThan(0);
    }
  });
});
