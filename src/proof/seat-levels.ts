import { coherentSumDb, incoherentSumDb } from "../base/units/index.ts";
import type { Configuration, Loudspeaker } from "../model/index.ts";
import type { PathPair } from "./path-pairs.ts";
import type { ScreenNames } from "./screen-names.ts";

/** Loudspeakers that play together by decision. */
export interface Together {
  readonly loudspeakerIds: readonly string[];
}

/** Loudspeakers of which one is fed by the output of the other. */
export interface Joined {
  readonly loudspeakerId: string;
  readonly intoLoudspeakerId: string;
}

/** How loud a preset plays a source channel at the seats, where loudspeakers play together by decision. */
export interface SeatLevels {
  /**
   * Change of level in dB at the seats of what a preset plays of a source channel from the loudspeakers that now play
   * together with this one. Undefined: it plays with no other, or nothing of it played before or plays now.
   */
  readonly changeDb: (place: SeatPlace) => number | undefined;
  /** Change of level in dB of the same path to the loudspeaker's first way: what its other ways have to follow. */
  readonly firstWayChangeDb: (place: SeatPlace & { readonly channel: string }) => number | undefined;
}

export interface SeatPlace {
  readonly presetId: string;
  readonly sourceChannelId: string;
  readonly loudspeakerId: string;
}

/**
 * Compares levels at the seats. Loudspeakers stand at different places, so their powers add; what meets itself in one
 * output adds in phase. How loud a loudspeaker plays what it gets follows from the old configuration: it was aligned to
 * the level that the calibration record states for its channel, or all of them to the same level. Of a loudspeaker with
 * several ways the first stands for all.
 */
export function seatLevels(
  before: Configuration,
  pairs: readonly PathPair[],
  { together, joins, names }: { together: readonly Together[]; joins: readonly Joined[]; names: ScreenNames },
): SeatLevels {
  const groups = united([
    ...together.map(({ loudspeakerIds }) => loudspeakerIds),
    ...joins.map(({ loudspeakerId, intoLoudspeakerId }) => [loudspeakerId, intoLoudspeakerId]),
  ]);
  const groupOf = new Map(groups.flatMap((group) => group.map((id) => [id, group] as const)));
  if (groups.length === 0) return { changeDb: () => undefined, firstWayChangeDb: () => undefined };
  const sensitivityDb = sensitivities(before, [...groupOf.keys()], names);
  const firstWay = new Map(before.loudspeakers.map(({ id, ways }) => [id, `${id}/${ways[0]?.id}`]));
  const levels = { before: new Map<string, number[]>(), after: new Map<string, number[]>() };
  const firstWayChanges = new Map<string, number>();
  for (const { place, ...sides } of pairs) {
    const { loudspeakerId, id } = place.feed;
    if (loudspeakerId === undefined || !groupOf.has(loudspeakerId) || firstWay.get(loudspeakerId) !== id) {
      continue;
    }
    if (sides.before !== undefined && sides.after !== undefined) {
      const key = keyOf({ ...place, loudspeakerId }, place.channel);
      firstWayChanges.set(key, sides.after.levelDb - sides.before.levelDb);
    }
    for (const side of ["before", "after"] as const) {
      // As if it played: mutes are judged as settings.
      const levelDb = sides[side]?.levelDb;
      if (levelDb === undefined) continue;
      const key = keyOf({ ...place, loudspeakerId });
      levels[side].set(key, [...(levels[side].get(key) ?? []), levelDb]);
    }
  }
  const loud = (side: "before" | "after", place: SeatPlace): number | undefined => {
    const played = levels[side].get(keyOf(place));
    return played === undefined ? undefined : coherentSumDb(played);
  };
  const fedBy = new Map(
    joins.map(({ loudspeakerId, intoLoudspeakerId }) => [loudspeakerId, intoLoudspeakerId]),
  );
  const atSeats = (side: "before" | "after", place: SeatPlace): number | undefined => {
    const parts = (groupOf.get(place.loudspeakerId) ?? []).flatMap((id) => {
      const output = side === "after" ? root(fedBy, id) : id;
      const levelDb = loud(side, { ...place, loudspeakerId: output });
      return levelDb === undefined ? [] : [levelDb + (sensitivityDb.get(id) ?? 0)];
    });
    return parts.length === 0 ? undefined : incoherentSumDb(parts);
  };
  return {
    changeDb: (place) => {
      const [was, is] = [atSeats("before", place), atSeats("after", place)];
      return was === undefined || is === undefined ? undefined : is - was;
    },
    firstWayChangeDb: (place) => firstWayChanges.get(keyOf(place, place.channel)),
  };
}

function keyOf({ presetId, sourceChannelId, loudspeakerId }: SeatPlace, channel?: string): string {
  return JSON.stringify([presetId, sourceChannelId, loudspeakerId, channel]);
}

/** The loudspeaker whose output feeds this one. */
function root(fedBy: ReadonlyMap<string, string>, id: string): string {
  const into = fedBy.get(id);
  return into === undefined ? id : root(fedBy, into);
}

/** Lists that share an item become one. */
function united(lists: readonly (readonly string[])[]): readonly (readonly string[])[] {
  return lists.reduce<readonly (readonly string[])[]>((groups, list) => {
    const meets = (group: readonly string[]) => group.some((id) => list.includes(id));
    const one = new Set([...groups.filter(meets).flat(), ...list]);
    return [...groups.filter((group) => !meets(group)), [...one]];
  }, []);
}

/** By how much each loudspeaker plays louder at the seats than what it gets, by its first way; up to a common constant. */
function sensitivities(
  before: Configuration,
  loudspeakerIds: readonly string[],
  names: ScreenNames,
): ReadonlyMap<string, number> {
  const speakers = before.loudspeakers.filter(({ id }) => loudspeakerIds.includes(id));
  const playing = speakers.flatMap((speaker) => firstWayGains(before, speaker, names));
  const measured = new Map(
    before.calibration?.channels.map(({ channelId, levelDbC }) => [channelId, levelDbC]),
  );
  const own = speakers.flatMap(({ id }) => {
    const shares = playing.filter(({ loudspeakerId }) => loudspeakerId === id);
    const sharers = ({ channelId }: (typeof shares)[number]) =>
      playing.filter((other) => other.channelId === channelId);
    const chosen = shares.toSorted((a, b) => sharers(a).length - sharers(b).length)[0];
    if (chosen === undefined) return [];
    const gainDb = incoherentSumDb(sharers(chosen).map((share) => share.gainDb));
    return [{ id, gainDb, levelDbC: measured.get(chosen.channelId) }];
  });
  const known = own.every(({ levelDbC }) => levelDbC !== undefined);
  return new Map(own.map(({ id, gainDb, levelDbC }) => [id, (known ? levelDbC! : 0) - gainDb]));
}

/** The gains in dB with which the first way of a loudspeaker gets its channels. */
function firstWayGains({ outputs, channels }: Configuration, { id, ways }: Loudspeaker, names: ScreenNames) {
  const feedId = `${id}/${ways[0]?.id}`;
  const output = outputs.find((item) => names.before.feeds.get(item.id)?.id === feedId);
  return (output?.mix ?? []).map(({ channelId, gainDb }) => ({
    loudspeakerId: id,
    channelId,
    gainDb: gainDb + output!.gainDb + (channels.find((channel) => channel.id === channelId)?.levelDb ?? 0),
  }));
}
