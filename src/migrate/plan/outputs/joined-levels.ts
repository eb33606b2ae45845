import { coherentSumDb, incoherentSumDb } from "../../../base/units/index.ts";
import type { Configuration, MixPart, Output, Preset, Route } from "../../../model/index.ts";
import { clean } from "../staging/restage.ts";

/** What an output that takes over another array has to be set to. */
export interface JoinedLevels {
  readonly mix: readonly MixPart[];
  readonly presets: readonly Preset[];
  /** Parts of the mix whose gain changed, by channel. */
  readonly changedMix: readonly string[];
  readonly changedRoutes: readonly { readonly presetId: string; readonly routeId: string }[];
  /** By how much the channels of either array are lowered (negative) or raised, in dB. */
  readonly intoChangeDb: number;
  readonly fromChangeDb: number;
}

/**
 * Levels with which every channel is as loud at the seats as before when one output feeds two arrays. The powers of two
 * arrays add, since they stand at different places. Each was aligned to the level that the calibration record states for
 * its channel, or else both to the same; from that and from its old settings follows how loud each plays what it gets.
 *
 * A source channel that a preset sends to channels of both arrays meets itself in the joined output, in phase: its
 * crossings are lowered until each array plays it as before.
 */
export function joinedLevels(configuration: Configuration, into: Output, from: Output): JoinedLevels {
  const fromParts = new Map(from.mix.map((part) => [part.channelId, part]));
  const shared = into.mix.filter(({ channelId }) => fromParts.has(channelId));
  const own = into.mix.filter(({ channelId }) => !fromParts.has(channelId));
  const sharedIds = new Set(shared.map(({ channelId }) => channelId));
  const added = from.mix.filter(({ channelId }) => !sharedIds.has(channelId));

  const alignedDb = alignment(configuration, { own, added });
  const fromLouderDb = sensitivityDifference(configuration, { into, from, own, added }, alignedDb);
  const bothDb = incoherentSumDb([0, fromLouderDb]);
  const intoChangeDb = -bothDb;
  const fromChangeDb = fromLouderDb - bothDb;
  const sharedChange = (part: MixPart) => {
    const difference = fromParts.get(part.channelId)!.gainDb + from.gainDb - part.gainDb - into.gainDb;
    return incoherentSumDb([0, difference]) - incoherentSumDb([0, 0]);
  };
  const mix = [
    ...into.mix.map((part) => {
      const change = sharedIds.has(part.channelId) ? sharedChange(part) : intoChangeDb;
      return { ...part, gainDb: clean(part.gainDb + change) };
    }),
    ...added.map((part) => ({
      ...part,
      gainDb: clean(part.gainDb + from.gainDb - into.gainDb + fromChangeDb),
    })),
  ];
  const before = new Map(into.mix.map(({ channelId, gainDb }) => [channelId, gainDb]));
  const ids = (parts: readonly MixPart[]) => new Set(parts.map(({ channelId }) => channelId));
  const meeting = withoutMeeting(configuration, ids(own), ids(added), alignedDb);
  return {
    mix,
    ...meeting,
    changedMix: mix
      .filter(({ channelId, gainDb }) => before.has(channelId) && before.get(channelId) !== gainDb)
      .map(({ channelId }) => channelId),
    intoChangeDb,
    fromChangeDb,
  };
}

interface Arrays {
  readonly into: Output;
  readonly from: Output;
  /** Channels that only one of them played. */
  readonly own: readonly MixPart[];
  readonly added: readonly MixPart[];
}

/** By how much the array `from` plays the same signal louder than `into` does. */
function sensitivityDifference(
  { channels }: Configuration,
  { into, from, own, added }: Arrays,
  alignedDb: number,
): number {
  const [first, second] = [own[0], added[0]];
  if (first === undefined || second === undefined) return 0;
  const levelOf = (id: string) => channels.find((channel) => channel.id === id)?.levelDb ?? 0;
  const firstTotal = levelOf(first.channelId) + first.gainDb + into.gainDb;
  const secondTotal = levelOf(second.channelId) + second.gainDb + from.gainDb;
  return alignedDb + firstTotal - secondTotal;
}

/** By how much the channel of the array `from` was aligned to a higher level than that of `into`. */
function alignment({ calibration }: Configuration, { own, added }: Pick<Arrays, "own" | "added">): number {
  const measured = (part: MixPart | undefined) =>
    calibration?.channels.find(({ channelId }) => channelId === part?.channelId)?.levelDbC;
  const [first, second] = [measured(own[0]), measured(added[0])];
  return first === undefined || second === undefined ? 0 : second - first;
}

/** The presets with lower crossings where a source channel would meet itself in the joined output. */
function withoutMeeting(
  { presets }: Configuration,
  first: ReadonlySet<string>,
  second: ReadonlySet<string>,
  alignedDb: number,
): Pick<JoinedLevels, "presets" | "changedRoutes"> {
  const changedRoutes: { readonly presetId: string; readonly routeId: string }[] = [];
  const lowered = presets.map((preset) => {
    const routing = preset.routing.map((route) => {
      const meeting = preset.routing.filter(
        ({ sourceChannelId }) => sourceChannelId === route.sourceChannelId,
      );
      const gains = (ids: ReadonlySet<string>) =>
        meeting.filter(({ channelId }) => ids.has(channelId)).map(({ gainDb }) => gainDb);
      const [toFirst, toSecond] = [gains(first), gains(second).map((gainDb) => gainDb + alignedDb)];
      const concerned = first.has(route.channelId) || second.has(route.channelId);
      if (!concerned || toFirst.length === 0 || toSecond.length === 0) return route;
      changedRoutes.push({ presetId: preset.id, routeId: route.id });
      const wanted = incoherentSumDb([coherentSumDb(toFirst), coherentSumDb(toSecond)]);
      const met = coherentSumDb([...toFirst, ...toSecond]);
      return { ...route, gainDb: clean(route.gainDb + wanted - met) } satisfies Route;
    });
    return { ...preset, routing };
  });
  return { presets: lowered, changedRoutes };
}
