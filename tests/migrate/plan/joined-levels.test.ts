import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { joinedLevels } from "../../../src/migrate/plan/outputs/joined-levels.ts";
import type { Configuration, Output, Route } from "../../../src/model/index.ts";
import { SCREEN } from "./example.ts";

const decibels = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((tenths) => tenths / 10);

/** Side and rear array with a channel each, and presets that send sources to one or both. */
const cases = fc.record({
  levels: fc.tuple(decibels(-10, 6), decibels(-10, 6)),
  mixes: fc.tuple(decibels(-6, 3), decibels(-6, 3)),
  gains: fc.tuple(decibels(-20, 6), decibels(-20, 6)),
  measuredDbC: fc.option(fc.tuple(decibels(79, 85), decibels(79, 85)), { nil: undefined }),
  routes: fc.array(
    fc.record({ source: fc.constantFrom("a", "b", "c"), to: fc.nat(1), gainDb: decibels(-12, 0) }),
    {
      maxLength: 6,
    },
  ),
});

const CHANNELS = ["side", "rear"] as const;

function outputFor(channelId: string, mixDb: number, gainDb: number): Output {
  return {
    ...SCREEN.outputs[0]!,
    id: `o-${channelId}`,
    feeds: { kind: "loudspeaker", loudspeakerId: channelId, wayId: "full" },
    mix: [{ channelId, gainDb: mixDb }],
    gainDb,
  };
}

const power = (levelsDb: readonly number[]) =>
  10 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** (level / 10), 0));
const phase = (levelsDb: readonly number[]) =>
  20 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** (level / 20), 0));

describe("two arrays on one output", () => {
  it("play every source channel as loud at the seats as before, whatever they were set to", () => {
    fc.assert(
      fc.property(cases, ({ levels, mixes, gains, measuredDbC, routes }) => {
        const crossings = new Map(routes.map((route) => [`${route.source}-${route.to}`, route]));
        const routing = [...crossings.values()].map(
          ({ source, to, gainDb }, index): Route => ({
            id: `r${index}`,
            sourceChannelId: source,
            channelId: CHANNELS[to]!,
            gainDb,
          }),
        );
        const [into, from] = CHANNELS.map((id, at) => outputFor(id, mixes[at]!, gains[at]!)) as [
          Output,
          Output,
        ];
        const configuration: Configuration = {
          ...SCREEN,
          channels: CHANNELS.map((id, at) => ({ ...SCREEN.channels[0]!, id, levelDb: levels[at]! })),
          presets: [{ ...SCREEN.presets[0]!, routing }],
          outputs: [into, from],
          ...(measuredDbC === undefined
            ? {}
            : {
                calibration: {
                  date: "2026-05-04",
                  by: "Service",
                  equalizationId: "film",
                  microphonePositions: [],
                  channels: CHANNELS.map((channelId, at) => ({ channelId, levelDbC: measuredDbC[at]! })),
                },
              }),
        };
        const joined = joinedLevels(configuration, into, from);

        // How loud either array is for a signal of 0 dB at its amplifier: from what each was aligned to.
        const total = (at: number) => levels[at]! + mixes[at]! + gains[at]!;
        const sensitivity = [0, 1].map((at) => (measuredDbC?.[at] ?? 82) - total(at));
        for (const source of ["a", "b", "c"]) {
          const before = [0, 1].flatMap((at) => {
            const own = routing.filter(
              ({ sourceChannelId, channelId }) => sourceChannelId === source && channelId === CHANNELS[at],
            );
            return own.map(({ gainDb }) => gainDb + total(at) + sensitivity[at]!);
          });
          if (before.length === 0) continue;
          const fed = joined.presets[0]!.routing.filter(
            ({ sourceChannelId }) => sourceChannelId === source,
          ).map(({ gainDb, channelId }) => {
            const at = CHANNELS.indexOf(channelId as "side");
            return (
              gainDb +
              levels[at]! +
              joined.mix.find((part) => part.channelId === channelId)!.gainDb +
              into.gainDb
            );
          });
          const after = power(sensitivity.map((array) => phase(fed) + array));
          expect(after).toBeCloseTo(power(before), 9);
        }
      }),
    );
  });

  it("are 3.01 dB lower each where they were alike, and as loud together where they played the same", () => {
    const [into, from] = CHANNELS.map((id) => outputFor(id, 0, -4)) as [Output, Output];
    const alike = joinedLevels({ ...SCREEN, presets: [], outputs: [into, from] }, into, from);
    expect(alike.mix.map(({ gainDb }) => gainDb)).toEqual(
      [-3.0103, -3.0103].map((db) => expect.closeTo(db, 4)),
    );
    // The same channel from two outputs 2 dB apart: its power was that of two at 0.88 dB above the lower one, so 1.12 below.
    const twin = { ...outputFor("side", 0, -6), id: "twin" };
    const same = joinedLevels({ ...SCREEN, presets: [], outputs: [into, twin] }, into, twin);
    expect(same.mix).toEqual([{ channelId: "side", gainDb: expect.closeTo(-0.8859, 4) }]);
  });
});
