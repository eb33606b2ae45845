import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/base/numeric/index.ts";
import { validateProof } from "../../src/model/generated/validators.js";
import type { Configuration } from "../../src/model/index.ts";
import { DEFAULT_TOLERANCES, prove } from "../../src/proof/index.ts";
import { changed, type Draft, item, large, pathsOf, proveSamples, screens, small } from "./samples.ts";

describe("a configuration against itself", () => {
  it.each(screens.map((screen) => [`${screen.screen.siteId} ${screen.screen.screenId}`, screen] as const))(
    "is equal in every path: %s",
    (_name, screen) => {
      const proof = proveSamples(screen, structuredClone(screen));
      expect(proof.verdict).toBe("equal");
      expect(proof.counts.paths).toBeGreaterThan(50);
      expect(proof.counts.equal).toBe(proof.counts.paths);
      expect(proof.groups).toHaveLength(1);
      expect(proof.groups[0]!.pathCount).toBe(proof.counts.paths);
      expect(proof.settings).toEqual([]);
      expect(proof.settingsCompared).toBeGreaterThan(50);
      expect(proof.sums.length).toBeGreaterThan(2);
      expect(proof.sums.map(({ verdict }) => verdict)).not.toContain("within-tolerance");
      expect(proof.commonDelayMs).toBe(0);
    },
  );

  it("counts every preset × route × output that mixes the channel and feeds something", () => {
    const outputs = large.outputs.filter(({ feeds }) => feeds.kind !== "spare");
    const expected = large.presets.flatMap(({ routing }) =>
      routing.flatMap(({ channelId }) =>
        outputs.filter(({ mix }) => mix.some((m) => m.channelId === channelId)),
      ),
    ).length;
    const proof = proveSamples(large, large);
    expect(proof.counts.paths).toBe(expected);
    expect(pathsOf(proof)).toHaveLength(expected);
    expect(proof.presets.reduce((sum, { counts }) => sum + counts.paths, 0)).toBe(expected);
    expect(proof.feeds.reduce((sum, { counts }) => sum + counts.paths, 0)).toBe(expected);
  });
});

describe("a proof as a document", () => {
  it("fits its schema", () => {
    for (const proof of [
      proveSamples(large, large),
      proveSamples(large, screens[2]!),
      proveSamples(small, screens[3]!),
      proveSamples(screens[3]!, small),
    ]) {
      validateProof(proof);
      expect(validateProof.errors).toBeNull();
    }
  });

  it("is the same bytes on every run, and survives JSON", () => {
    const first = JSON.stringify(proveSamples(large, screens[2]!));
    expect(JSON.stringify(proveSamples(large, screens[2]!))).toBe(first);
    expect(first).not.toContain("null,null");
    expect(first).not.toMatch(/:-0[,}]/);
  });

  it("books balance: counts, groups, presets and feeds hold the same paths", () => {
    for (const [before, after] of [
      [large, screens[2]!],
      [small, screens[3]!],
    ] as const) {
      const { counts, groups, presets, feeds } = proveSamples(before, after);
      const { paths, ...byVerdict } = counts;
      expect(Object.values(byVerdict).reduce((sum, count) => sum + count, 0)).toBe(paths);
      expect(groups.reduce((sum, { pathCount }) => sum + pathCount, 0)).toBe(paths);
      expect(presets.reduce((sum, { counts: own }) => sum + own.paths, 0)).toBe(paths);
      expect(feeds.reduce((sum, { counts: own }) => sum + own.paths, 0)).toBe(paths);
      for (const group of groups) {
        const members = group.paths.reduce((sum, { presetIds }) => sum + presetIds.length, 0);
        expect(members).toBe(group.pathCount);
      }
    }
  });

  it("turned round, finds the new paths missing and the missing ones new, and every deviation negated", () => {
    const there = proveSamples(large, screens[2]!);
    const back = proveSamples(screens[2]!, large);
    expect(back.counts.missing).toBe(there.counts.new);
    expect(back.counts.new).toBe(there.counts.missing);
    expect(back.counts.audible).toBe(there.counts.audible);
    const levels = (proof: typeof there, sign: number) =>
      pathsOf(proof)
        .flatMap(({ deviation }) =>
          deviation === undefined ? [] : [Math.round(sign * deviation.levelDb * 1000)],
        )
        .sort((a, b) => a - b);
    expect(levels(back, -1)).toEqual(levels(there, 1));
  });
});

/** Changes that nobody in the auditorium can hear: they belong to the unit, not to the screen. */
const SILENT_CHANGES: readonly (readonly [string, (draft: Draft<Configuration>) => void])[] = [
  [
    "other ids of outputs, EQ sets, program channels and sources",
    (draft) => {
      for (const output of draft.outputs) {
        output.id = `x-${output.id}`;
        for (const part of output.mix) part.channelId = `x-${part.channelId}`;
      }
      for (const channel of draft.channels) channel.id = `x-${channel.id}`;
      for (const source of draft.sources) {
        source.id = `x-${source.id}`;
        for (const channel of source.channels) channel.id = `x-${channel.id}`;
      }
      for (const set of draft.equalizations) {
        set.id = `x-${set.id}`;
        for (const channel of set.channels) channel.channelId = `x-${channel.channelId}`;
      }
      for (const preset of draft.presets) {
        preset.sourceId = `x-${preset.sourceId}`;
        preset.equalizationId = `x-${preset.equalizationId}`;
        for (const route of preset.routing) {
          route.channelId = `x-${route.channelId}`;
          route.sourceChannelId = `x-${route.sourceChannelId}`;
        }
      }
      const { boothMonitor, hearingImpaired, narration, nonSync, paging } = draft.operation;
      for (const use of [nonSync, paging]) if (use !== undefined) use.sourceId = `x-${use.sourceId}`;
      for (const { action } of draft.automation) {
        if (action.kind === "select-source") action.sourceId = `x-${action.sourceId}`;
      }
      for (const feed of [boothMonitor, hearingImpaired, narration]) {
        if (feed !== undefined) feed.outputId = `x-${feed.outputId}`;
      }
    },
  ],
  [
    "gain moved from the outputs to the program channels",
    (draft) => {
      const channels = new Set(["L", "R", "C"]);
      for (const channel of draft.channels) if (channels.has(channel.id)) channel.levelDb += 1.7;
      for (const output of draft.outputs) {
        for (const part of output.mix) if (channels.has(part.channelId)) part.gainDb -= 1.7;
      }
    },
  ],
  [
    "gain moved from the preset to its crossings and the source",
    (draft) => {
      for (const preset of draft.presets) {
        preset.levelDb -= 2.3;
        for (const route of preset.routing) route.gainDb += 1.1;
      }
      for (const source of draft.sources) for (const channel of source.channels) channel.gainDb += 1.2;
    },
  ],
  [
    "gain moved from the feeds' operation level to their outputs",
    (draft) => {
      const { boothMonitor, hearingImpaired } = draft.operation;
      for (const feed of [boothMonitor, hearingImpaired]) {
        if (feed === undefined) continue;
        feed.levelDb -= 4;
        item(draft.outputs, feed.outputId).gainDb += 4;
      }
    },
  ],
  [
    "bypassed filters, sliders at 0 dB and a disabled limiter added",
    (draft) => {
      for (const output of draft.outputs) {
        output.filters.push({
          id: "off",
          kind: "peaking",
          enabled: false,
          frequencyHz: 500,
          gainDb: 9,
          q: 1,
        });
        output.limiter ??= { enabled: false, thresholdDbfs: -60, attackMs: 1, releaseMs: 1 };
      }
      for (const { channels } of draft.equalizations) {
        for (const channel of channels) {
          channel.graphic ??= { layout: "third-octave-27", gainsDb: Array(27).fill(0) };
          channel.parametric?.push({ id: "flat", kind: "peaking", frequencyHz: 500, gainDb: 0, q: 1 });
        }
      }
    },
  ],
  [
    "filters in another order",
    (draft) => {
      for (const output of draft.outputs) output.filters.reverse();
      for (const { channels } of draft.equalizations) {
        for (const channel of channels) channel.parametric?.reverse();
      }
    },
  ],
  [
    "another label of everything",
    (draft) => {
      for (const list of [
        draft.presets,
        draft.outputs,
        draft.loudspeakers,
        draft.sources,
        draft.equalizations,
      ]) {
        for (const entry of list) entry.label = `New ${entry.label}`;
      }
    },
  ],
];
describe("what nobody can hear", () => {
  it.each(SILENT_CHANGES)("is equal: %s", (_name, change) => {
    for (const screen of [large, small]) {
      const proof = proveSamples(screen, changed(screen, change));
      expect(proof.verdict).toBe("equal");
      expect(proof.counts.equal).toBe(proveSamples(screen, screen).counts.paths);
    }
  });

  it("is equal: delay in the program channels instead of the outputs", () => {
    const before = changed(large, ({ outputs }) => {
      for (const output of outputs) output.delayMs += 5;
    });
    const after = changed(large, ({ channels }) => {
      for (const channel of channels) channel.delayMs += 5;
    });
    expect(proveSamples(before, after).verdict).toBe("equal");
  });

  it("is equal: program channels of other names, as long as sound goes from the same place to the same place", () => {
    const renamed = changed(large, ({ channels }) => {
      item(channels, "Lss").label = "Ls";
      item(channels, "Rss").label = "Rs";
    });
    const proof = proveSamples(large, renamed);
    expect(proof.verdict).toBe("equal");
    const through = proof.groups.flatMap(({ paths }) =>
      paths.filter(({ channelAfter }) => channelAfter !== undefined),
    );
    expect(new Set(through.map(({ channel, channelAfter }) => `${channel} ${channelAfter}`))).toEqual(
      new Set(["Lss Ls", "Rss Rs"]),
    );
  });

  it("is equal whatever order lists are in, in either document", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 31 - 1 }), fc.boolean(), (seed, swap) => {
        const shuffled = inOtherOrder(large, seed);
        const proof = swap ? proveSamples(shuffled, large) : proveSamples(large, shuffled);
        expect(proof.verdict).toBe("equal");
      }),
      { numRuns: 10 },
    );
  });

  it("finds the same, whatever order lists are in", () => {
    const reference = proveSamples(large, screens[2]!);
    const shuffled = proveSamples(inOtherOrder(large, 7), inOtherOrder(screens[2]!, 8));
    const facts = ({ counts, commonDelayMs, verdict, settings }: typeof reference) => ({
      counts,
      commonDelayMs,
      verdict,
      settings: settings.map((setting) => JSON.stringify(setting)).sort(),
    });
    expect(facts(shuffled)).toEqual(facts(reference));
    const lines = (proof: typeof reference) =>
      pathsOf(proof)
        .map((path) => JSON.stringify(path))
        .sort();
    expect(lines(shuffled)).toEqual(lines(reference));
  });
});

/** Every list with ids in another order. Plain lists of numbers stay: their order means something. */
function inOtherOrder(configuration: Configuration, seed: number): Configuration {
  const random = seededRandom(seed);
  const shuffle = (value: unknown): unknown => {
    if (Array.isArray(value)) {
      const list = value.map(shuffle);
      if (typeof list[0] !== "object") return list;
      for (let k = list.length - 1; k > 0; k--) {
        const at = Math.floor(random() * (k + 1));
        [list[k], list[at]] = [list[at], list[k]];
      }
      return list;
    }
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([name, member]) => [name, shuffle(member)]));
  };
  return shuffle(configuration) as Configuration;
}

describe("delay", () => {
  it("that all paths have in common is taken out and reported", () => {
    const later = changed(large, ({ presets }) => {
      for (const preset of presets) preset.delayMs += 7;
    });
    const proof = proveSamples(large, later);
    expect(proof.commonDelayMs).toBeCloseTo(7, 9);
    expect(proof.verdict).toBe("within-tolerance");
    expect(proof.counts.equal).toBe(proof.counts.paths);
    expect(proveSamples(large, later, { tolerances: { commonDelayMs: 5 } }).verdict).toBe("differs");
  });

  it("of the unit itself counts", () => {
    const options = { beforeUnit: { latencyMs: 1.5 }, afterUnit: { latencyMs: 4 } };
    const proof = prove(large, large, options);
    expect(proof.commonDelayMs).toBeCloseTo(2.5, 9);
    expect([proof.before.latencyMs, proof.after.latencyMs]).toEqual([1.5, 4]);
  });

  it("of one preset is told apart from delay between its paths", () => {
    const proof = proveSamples(
      large,
      changed(large, ({ presets, outputs }) => {
        item(presets, "feature-71").delayMs += 3;
        item(outputs, "center-hf").delayMs += 0.03;
      }),
    );
    expect(proof.commonDelayMs).toBe(0);
    expect(proof.verdict).toBe("differs");
    expect(proof.presets.filter(({ delayMs }) => delayMs !== 0)).toMatchObject([
      { presetId: "feature-71", delayMs: 3, delayVerdict: "audible", verdict: "audible" },
    ]);
    for (const { feedId, deviation, verdict, reasons } of pathsOf(proof)) {
      const delayMs = feedId === "center/hf" ? 0.03 : 0;
      if (deviation !== undefined) expect(deviation.delayMs).toBeCloseTo(delayMs, 5);
      if (feedId === "center/hf") expect([verdict, reasons]).toEqual(["within-tolerance", ["delay"]]);
      else expect(verdict).toBe("equal");
    }
  });
});

describe("tolerances", () => {
  it("are the caller's; what is not given stays at its default", () => {
    const louder = changed(small, ({ channels }) => {
      item(channels, "C").levelDb += 0.2;
    });
    const proof = proveSamples(small, louder);
    expect(proof.tolerances).toEqual(DEFAULT_TOLERANCES);
    expect(proof.verdict).toBe("within-tolerance");
    const strict = proveSamples(small, louder, { tolerances: { levelDb: 0.1 } });
    expect(strict.tolerances).toEqual({ ...DEFAULT_TOLERANCES, levelDb: 0.1 });
    expect(strict.verdict).toBe("differs");
  });

  it("forgive rounding to steps of 0.5 dB everywhere at once", () => {
    const rounded = changed(large, ({ outputs, channels }) => {
      for (const output of outputs) output.gainDb = Math.round(output.gainDb * 2) / 2;
      for (const channel of channels) channel.levelDb = Math.round(channel.levelDb * 20) / 20;
    });
    expect(proveSamples(large, rounded).verdict).toBe("within-tolerance");
  });
});

describe("what cannot be computed", () => {
  it("is refused with its place", () => {
    const impossible = changed(small, ({ outputs }) => {
      outputs[0]!.lowPass = { family: "butterworth", order: 4, frequencyHz: 30_000 };
    });
    expect(() => prove(impossible, small, { beforeUnit: {}, afterUnit: {} })).toThrow(
      expect.objectContaining({
        code: "acoustics.invalid-filter",
        place: expect.objectContaining({ pointer: "/outputs/0/lowPass/frequencyHz" }),
      }),
    );
  });
});
