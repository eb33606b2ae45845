import { describe, expect, it } from "vitest";
import type { Configuration } from "../../src/model/index.ts";
import type { GivenUp } from "../../src/proof/index.ts";
import { changed, type Draft, feedsWith, item, large, pathsOf, proveSamples } from "./samples.ts";

const recalls = (isGone: (presetId: string) => boolean) =>
  large.automation.filter(({ action }) => action.kind === "recall-preset" && isGone(action.presetId));

/** A screen without some presets, and without the automation that recalls them. */
function withoutPresets(isGone: (presetId: string) => boolean): Configuration {
  const gone = new Set(recalls(isGone).map(({ id }) => id));
  return changed(large, (draft) => {
    draft.presets = draft.presets.filter(({ id }) => !isGone(id));
    draft.automation = draft.automation.filter(({ id }) => !gone.has(id));
  });
}

/** The decisions to leave out what recalls some presets. */
const withoutRecalls = (isGone: (presetId: string) => boolean): readonly GivenUp[] =>
  recalls(isGone).map(({ id }) => ({
    kind: "setting",
    setting: "automation",
    automationId: id,
    decided: null,
  }));

const isArchive = (id: string) => id === "archive-mono";
const without = (presetId: string) => withoutPresets((id) => id === presetId);

describe("what was given up by decision", () => {
  it("is told apart from what is missing, and does not count against the proof", () => {
    const after = without("archive-mono");
    const missing = proveSamples(large, after);
    expect(missing.verdict).toBe("differs");
    const preset = { kind: "preset", presetId: "archive-mono" } as const;
    const recalled = proveSamples(large, after, { givenUp: [preset] });
    expect(recalled.verdict).toBe("differs");
    const decided = proveSamples(large, after, { givenUp: [preset, ...withoutRecalls(isArchive)] });
    expect(decided.verdict).toBe("equal");
    expect(decided.counts.leftOut).toBe(missing.counts.missing);
    expect(decided.counts.missing).toBe(0);
    expect(
      item(
        decided.presets.map((preset) => ({ ...preset, id: preset.presetId })),
        "archive-mono",
      ),
    ).toMatchObject({
      verdict: "left-out",
    });
    expect(decided.groups[0]).toMatchObject({ verdict: "left-out", reasons: ["no-preset"] });
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
    const ofDisc = (presetId: string) =>
      large.presets.some(({ id, sourceId }) => id === presetId && sourceId === "disc");
    const noSource = changed(withoutPresets(ofDisc), (draft) => {
      draft.sources = draft.sources.filter(({ id }) => id !== "disc");
      draft.automation = draft.automation.filter(({ action }) => action.kind !== "select-source");
    });
    const givenUp: readonly GivenUp[] = [
      { kind: "source", sourceId: "disc" },
      ...withoutRecalls(ofDisc),
      { kind: "setting", setting: "automation", automationId: "network-source-disc", decided: null },
    ];
    expect(proveSamples(large, noSource, { givenUp }).verdict).toBe("equal");

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
      proof.sums.filter(({ verdict }) => verdict === "left-out").map(({ loudspeakerId }) => loudspeakerId),
    ).toEqual(["left"]);
  });

  it("can be a setting at one feed, where the decision accepts that it protects less", () => {
    const limiter = (feedId: string) =>
      ({ kind: "setting", setting: "limiter", feedId, decided: null, accepts: "weaker-protection" }) as const;
    const noLimiters = changed(large, ({ outputs }) => {
      for (const id of ["center-hf", "left-hf"]) delete item(outputs, id).limiter;
    });
    const one = proveSamples(large, noLimiters, {
      givenUp: [limiter("center/hf")],
    });
    expect(one.settings.map(({ feedId, verdict }) => [feedId, verdict]).sort()).toEqual([
      ["center/hf", "left-out"],
      ["left/hf", "lost"],
    ]);
    expect(one.verdict).toBe("differs");
    const all = proveSamples(large, noLimiters, { givenUp: [limiter("center/hf"), limiter("left/hf")] });
    expect(all.verdict).toBe("equal");
    expect(all.settings.map(({ verdict }) => verdict)).toEqual(["left-out", "left-out"]);
    const silent = proveSamples(large, noLimiters, {
      givenUp: ["center/hf", "left/hf"].map((feedId) => {
        const { accepts: _, ...unaccepted } = limiter(feedId);
        return unaccepted;
      }),
    });
    expect(silent.verdict).toBe("differs");
    expect(silent.settings.map(({ verdict }) => verdict)).toEqual(["lost", "lost"]);
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
  const half = (id: string, side: "highPass" | "lowPass") => ({
    ...item(large.outputs, id)[side]!,
    family: "butterworth" as const,
    order: 2,
  });
  const givenUp: readonly GivenUp[] = [
    { kind: "setting", setting: "low-pass", feedId: "left/mf", decided: half("left-mf", "lowPass") },
    {
      kind: "setting",
      setting: "high-pass",
      feedId: "left/hf",
      decided: half("left-hf", "highPass"),
      accepts: "weaker-protection",
    },
  ];

  it("covers what it does to its paths and to the sum", () => {
    expect(proveSamples(large, otherCrossover()).verdict).toBe("differs");
    const proof = proveSamples(large, otherCrossover(), { givenUp });
    expect(proof.verdict).toBe("equal");
    expect(feedsWith(proof, "changed-by-decision")).toEqual(["left/hf", "left/mf"]);
    expect(pathsOf(proof).find(({ feedId }) => feedId === "left/hf")!.deviation!.responseDb).not.toBe(0);
    expect(proof.sums.find(({ loudspeakerId }) => loudspeakerId === "left")).toMatchObject({
      verdict: "changed-by-decision",
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
      givenUp: [{ kind: "setting", setting: "mute", feedId: "left/hf", decided: true }],
    });
    expect(proof.verdict).toBe("equal");
    expect(feedsWith(proof, "left-out")).toEqual(["left/hf"]);
    expect(proof.sums.find(({ loudspeakerId }) => loudspeakerId === "left")!.verdict).toBe("left-out");
    const elsewhere = proveSamples(large, muted, {
      givenUp: [{ kind: "setting", setting: "mute", feedId: "left/mf", decided: true }],
    });
    expect(elsewhere.verdict).toBe("differs");
    expect(elsewhere.sums.find(({ loudspeakerId }) => loudspeakerId === "left")!.verdict).toBe("missing");
  });
});

const power = (levelsDb: readonly number[]) =>
  10 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** (level / 10), 0));
const inPhase = (levelsDb: readonly number[]) =>
  20 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** (level / 20), 0));

/** The large auditorium with one array a surround channel on the left. */
const room = changed(large, (draft) => {
  const gone = ["lss-rear", "lrs-outer"];
  draft.outputs = draft.outputs.filter(({ id }) => !gone.includes(id));
  draft.loudspeakers = draft.loudspeakers.filter(({ id }) => !gone.includes(id));
});

const decision = { kind: "joined", loudspeakerId: "lrs-inner", intoLoudspeakerId: "lss-front" } as const;

/**
 * The rear array on the left fed by the output of the side array: each channel from both, as loud at the seats as before
 * by the levels in the calibration record; a source that plays through both channels met itself and is lower.
 */
function joined(change: (draft: Draft<Configuration>) => void = () => {}): Configuration {
  const [into, from] = [item(room.outputs, "lss-front"), item(room.outputs, "lrs-inner")];
  const measured = (id: string) =>
    room.calibration!.channels.find(({ channelId }) => channelId === id)!.levelDbC;
  const level = (id: string) => item(room.channels, id).levelDb;
  const sensitivity = [
    measured("Lss") - level("Lss") - into.gainDb,
    measured("Lrs") - level("Lrs") - from.gainDb,
  ];
  const both = power(sensitivity);
  const share = (id: string) => ({
    channelId: id,
    gainDb: measured(id) - both - level(id) - into.gainDb,
  });
  return changed(room, (draft) => {
    draft.outputs = draft.outputs.filter(({ id }) => id !== from.id);
    item(draft.outputs, into.id).mix = [share("Lss"), share("Lrs")];
    for (const preset of draft.presets) {
      for (const route of preset.routing.filter(({ channelId }) => channelId === "Lss")) {
        const other = preset.routing.find(
          ({ channelId, sourceChannelId }) =>
            channelId === "Lrs" && sourceChannelId === route.sourceChannelId,
        );
        if (other === undefined) continue;
        const wanted = power([route.gainDb + measured("Lss"), other.gainDb + measured("Lrs")]);
        const met = inPhase([route.gainDb + measured("Lss"), other.gainDb + measured("Lrs")]);
        route.gainDb += wanted - met;
        other.gainDb += wanted - met;
      }
    }
    // The monitor in the booth is no loudspeaker of the room: what reaches it is not looked at here.
    item(draft.outputs, "monitor").mute = true;
    change(draft);
  });
}

const before = changed(room, (draft) => {
  item(draft.outputs, "monitor").mute = true;
});
const proveJoined = (after: Configuration, givenUp: readonly (typeof decision)[]) =>
  proveSamples(before, after, { givenUp });

describe("two arrays joined by decision", () => {
  const isArray = ({ feedId }: { readonly feedId: string }) => feedId === "lss-front/full";

  it("differ without the decision, and are given up with it: each is as loud at the seats as before", () => {
    const after = joined();
    const plain = proveJoined(after, []);
    expect(plain.verdict).toBe("differs");
    expect([plain.counts.missing, plain.counts.new, plain.counts.audible].every((count) => count > 0)).toBe(
      true,
    );
    const proof = proveJoined(after, [decision]);
    const array = pathsOf(proof).filter(isArray);
    expect(new Set(array.map(({ verdict }) => verdict))).toEqual(new Set(["changed-by-decision"]));
    for (const { deviation } of array) {
      if (deviation === undefined) continue;
      expect(deviation.levelDb).toBeLessThan(-1);
      expect(deviation.seatsDb).toBeCloseTo(0, 3);
    }
    const missing = pathsOf(proof).filter(({ feedId }) => feedId === "lrs-inner/full");
    expect(new Set(missing.map(({ verdict }) => verdict))).toEqual(new Set(["changed-by-decision"]));
  });

  it.each([
    ["the gain of the output left as it was", 2],
    ["a level that is more than half a dB off", 0.51],
    ["a level that is more than half a dB too low", -0.51],
  ])("do not excuse %s", (_, offDb) => {
    const proof = proveJoined(
      joined((draft) => {
        item(draft.outputs, "lss-front").gainDb += offDb;
      }),
      [decision],
    );
    expect(proof.verdict).toBe("differs");
    for (const { verdict, reasons, deviation } of pathsOf(proof).filter(isArray)) {
      expect(["audible", "new"]).toContain(verdict);
      expect(reasons).toContain("level");
      if (deviation !== undefined) expect(deviation.seatsDb).toBeCloseTo(offDb, 3);
    }
  });

  it("do not excuse levels left as they were: both arrays then play as loud as one did", () => {
    const proof = proveJoined(
      changed(before, (draft) => {
        draft.outputs = draft.outputs.filter(({ id }) => id !== "lrs-inner");
        item(draft.outputs, "lss-front").mix.push({ channelId: "Lrs", gainDb: 0 });
      }),
      [decision],
    );
    const feature = pathsOf(proof).find(
      (path) => isArray(path) && path.presetId === "feature-71" && path.deviation !== undefined,
    )!;
    expect(feature.verdict).toBe("audible");
    expect(feature.reasons).toContain("level");
    expect(feature.deviation!.levelDb).toBe(0);
    expect(feature.deviation!.seatsDb).toBeGreaterThan(2);
  });

  it("do not excuse a channel that is not heard from them any more", () => {
    const proof = proveJoined(
      joined((draft) => {
        const array = item(draft.outputs, "lss-front");
        array.mix = array.mix.filter(({ channelId }) => channelId !== "Lrs");
      }),
      [decision],
    );
    const lost = pathsOf(proof).find(
      ({ presetId, channel, feedId }) =>
        presetId === "feature-71" && channel === "Lrs" && feedId === "lrs-inner/full",
    );
    expect(lost?.verdict).toBe("missing");
  });

  it("excuse nothing else of the array that still plays", () => {
    for (const fault of [
      (draft: Draft<Configuration>) => {
        item(draft.outputs, "lss-front").polarity = "inverted";
      },
      (draft: Draft<Configuration>) => {
        item(draft.outputs, "lss-front").delayMs += 2;
      },
      (draft: Draft<Configuration>) => {
        item(draft.outputs, "lss-front").highPass = { family: "butterworth", order: 4, frequencyHz: 400 };
      },
      (draft: Draft<Configuration>) => {
        item(draft.outputs, "lss-front").filters = [
          { id: "f", kind: "peaking", frequencyHz: 1000, gainDb: 6, q: 1 },
        ];
      },
    ]) {
      const proof = proveJoined(joined(fault), [decision]);
      expect(pathsOf(proof).some((path) => isArray(path) && path.verdict === "audible")).toBe(true);
    }
  });
});

describe("a preset that goes over to another EQ set by decision", () => {
  const other = (change: (draft: Draft<Configuration>) => void = () => {}) =>
    changed(large, (draft) => {
      item(draft.presets, "microphone").equalizationId = item(draft.presets, "feature-51").equalizationId;
      change(draft);
    });
  const givenUp = [
    {
      kind: "equalization",
      presetId: "microphone",
      equalizationId: item(large.presets, "feature-51").equalizationId,
    },
  ] as const;

  it("has to play through that one, and through no other", () => {
    expect(proveSamples(large, other()).verdict).toBe("differs");
    const proof = proveSamples(large, other(), { givenUp });
    expect(proof.verdict).toBe("equal");
    expect(proof.counts.changedByDecision).toBeGreaterThan(0);
    const third = large.equalizations.find(
      ({ id }) => id !== givenUp[0].equalizationId && id !== item(large.presets, "microphone").equalizationId,
    )!;
    const wrong = other((draft) => {
      item(draft.presets, "microphone").equalizationId = third.id;
    });
    expect(proveSamples(large, wrong, { givenUp }).verdict).toBe("differs");
    const elsewhere = other((draft) => {
      item(draft.presets, "feature-71").equalizationId = third.id;
    });
    expect(proveSamples(large, elsewhere, { givenUp }).verdict).toBe("differs");
  });
});

describe("parts of a preset or an output that are left out by decision", () => {
  const route = item(large.presets, "feature-51").routing[0]!;
  const label = item(large.channels, route.channelId).label;
  const withoutRoute = changed(large, (draft) => {
    const preset = item(draft.presets, "feature-51");
    preset.routing = preset.routing.filter(({ id }) => id !== route.id);
  });

  it("can be a crossing, a source channel or a share of an output, and nothing beside it", () => {
    const { sourceId } = item(large.presets, "feature-51");
    const crossing = {
      kind: "crossing",
      presetId: "feature-51",
      sourceChannelId: route.sourceChannelId,
      channel: label,
    } as const;
    expect(proveSamples(large, withoutRoute, { givenUp: [crossing] }).verdict).toBe("equal");
    expect(
      proveSamples(large, withoutRoute, { givenUp: [{ ...crossing, presetId: "feature-71" }] }).verdict,
    ).toBe("differs");
    const channel = { kind: "source-channel", sourceId, sourceChannelId: route.sourceChannelId } as const;
    expect(proveSamples(large, withoutRoute, { givenUp: [channel] }).verdict).toBe("equal");
    expect(proveSamples(large, withoutRoute, { givenUp: [{ ...channel, sourceId: "disc" }] }).verdict).toBe(
      "differs",
    );
    const monitor = item(large.outputs, "monitor");
    const withoutShare = changed(large, (draft) => {
      item(draft.outputs, "monitor").mix.shift();
    });
    const gone = item(large.channels, monitor.mix[0]!.channelId).label;
    const share = { kind: "share", feedId: "booth-monitor", channel: gone } as const;
    expect(proveSamples(large, withoutShare).verdict).toBe("differs");
    expect(proveSamples(large, withoutShare, { givenUp: [share] }).verdict).toBe("equal");
    expect(proveSamples(large, withoutShare, { givenUp: [{ ...share, feedId: "narration" }] }).verdict).toBe(
      "differs",
    );
  });
});

describe("polarity that a unit cannot turn", () => {
  it("covers the polarity of this feed and the sum it belongs to", () => {
    const turned = (outputId: string) =>
      changed(large, (draft) => {
        const output = item(draft.outputs, outputId);
        output.polarity = output.polarity === "normal" ? "inverted" : "normal";
      });
    const other = item(large.outputs, "left-mf").polarity === "normal" ? "inverted" : "normal";
    const givenUp = [{ kind: "polarity", feedId: "left/mf", decided: other }] as const;
    expect(proveSamples(large, turned("left-mf")).verdict).toBe("differs");
    expect(proveSamples(large, turned("left-mf"), { givenUp }).verdict).toBe("equal");
    expect(proveSamples(large, turned("left-hf"), { givenUp }).verdict).toBe("differs");
    // Decided to turn it, and it was not turned.
    expect(proveSamples(large, large, { givenUp }).verdict).toBe("differs");
  });
});
