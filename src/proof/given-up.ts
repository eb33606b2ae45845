import { coherentSumDb } from "../base/units/index.ts";
import type { Configuration, ConnectorProof, Output } from "../model/index.ts";
import { type DecidedSetting, decidedAt, isMuteDecided, type SettingPlace } from "./decided-setting.ts";
import type { PathPair, PathPlace } from "./path-pairs.ts";
import type { ScreenNames } from "./screen-names.ts";
import { type SeatLevels, seatLevels } from "./seat-levels.ts";

/**
 * Something that the new configuration leaves out, or plays otherwise, on purpose. Where another value takes the place of
 * the old one, the decision carries it, and the new configuration has to have it. What is as it was decided is reported
 * as changed or left out by decision, apart from what is missing. Nothing else is excused: what a decision does not cover
 * is judged as ever, on the same path too.
 */
export type GivenUp =
  | { readonly kind: "preset"; readonly presetId: string }
  | { readonly kind: "source"; readonly sourceId: string }
  | { readonly kind: "channel"; readonly label: string }
  | { readonly kind: "loudspeaker"; readonly loudspeakerId: string }
  | { readonly kind: "feed"; readonly feed: "hearing-impaired" | "narration" | "booth-monitor" }
  /**
   * The output of one loudspeaker feeds another one as well: what only the other one played is new there, and levels change
   * so far that what is heard at the seats is as loud as before; see seatLevels.
   */
  | { readonly kind: "joined"; readonly loudspeakerId: string; readonly intoLoudspeakerId: string }
  /**
   * A program channel plays through others, by their labels in the new configuration, and so does its level at the seats.
   * Where it and they shared an equalizer's place, the one of `equalizedAs` (its label in the old configuration) stays.
   */
  | {
      readonly kind: "folded";
      readonly label: string;
      readonly into: readonly string[];
      readonly equalizedAs?: string;
    }
  | { readonly kind: "source-channel"; readonly sourceId: string; readonly sourceChannelId: string }
  /** A crossing of a preset, to a program channel by its label. */
  | {
      readonly kind: "crossing";
      readonly presetId: string;
      readonly sourceChannelId: string;
      readonly channel: string;
    }
  /** What an output plays of a program channel. */
  | { readonly kind: "share"; readonly feedId: string; readonly channel: string }
  /** A preset goes over to another EQ set of the old configuration: that one is what has to be heard now. */
  | { readonly kind: "equalization"; readonly presetId: string; readonly equalizationId: string }
  /** Polarity of the output of a feed from now on. */
  | { readonly kind: "polarity"; readonly feedId: string; readonly decided: Output["polarity"] }
  /** A feed plays later than before (earlier: negative), in ms: by so much, and by no more or less. */
  | { readonly kind: "later"; readonly feedId: string; readonly byMs: number }
  /**
   * Where a cable goes: what its old connector carried, its new one has to carry; null: it is unplugged. As soon as one
   * cable is named, what no cable brings is on no connector.
   */
  | {
      readonly kind: "cable";
      readonly direction: ConnectorProof["direction"];
      readonly fromConnectorId: string;
      readonly toConnectorId: string | null;
    }
  | DecidedSetting;

/** Says what the decisions cover. */
export interface Decided {
  /** A path of the old configuration that is missing. */
  readonly missing: (place: PathPlace) => boolean;
  /** A path that is missing because other loudspeakers or program channels play it: they have to. */
  readonly elsewhere: (place: PathPlace) => boolean;
  /** A feed that is muted now. */
  readonly muted: (feedId: string | undefined) => boolean;
  /** Whether a feed still plays in any way what a missing path played there. */
  readonly stillReached: (place: PathPlace) => boolean;
  /**
   * Whether a path to a feed that is no loudspeaker of the auditorium plays a program channel through others: it has no
   * level at the seats, see feedLevels.
   */
  readonly throughOthers: (place: PathPlace) => boolean;
  /** How loud such a feed plays a source channel, and by how much that may change. */
  readonly feedLevels: (place: PathPlace) => { readonly changeDb: number; readonly allowedDb: number };
  /** A path that is new. */
  readonly added: (place: PathPlace) => boolean;
  /** How loud it is at the seats what loudspeakers play together by decision. */
  readonly seats: SeatLevels;
  /** The EQ set and program channel (label) of the old configuration whose equalizer a path has now. */
  readonly equalizer: (
    place: PathPlace,
  ) => { readonly equalizationId?: string; readonly channel?: string } | undefined;
  /** The old program channel (label) whose equalizer what plays through a new one has to have. */
  readonly equalizedAs: (labelAfter: string) => string;
  /** Polarity of the output of a feed from now on. */
  readonly polarity: (feedId: string) => Output["polarity"] | undefined;
  /** By how much a feed has to play later, in ms. */
  readonly laterMs: (feedId: string) => number;
  /** Labels of the channels through which a channel of the old configuration plays now. */
  readonly foldedInto: (label: string) => readonly string[];
  /** A program channel, by its label. */
  readonly channel: (label: string) => boolean;
  /** A loudspeaker as a whole. */
  readonly loudspeaker: (loudspeakerId: string) => boolean;
  /** What was decided on a setting. */
  readonly setting: (place: SettingPlace) => DecidedSetting | undefined;
}

/** Prepares decisions for the paths of a configuration. */
export function decided(
  givenUp: readonly GivenUp[],
  before: Configuration,
  { pairs, names }: { readonly pairs: readonly PathPair[]; readonly names: ScreenNames },
): Decided {
  const joins = givenUp.filter((item) => item.kind === "joined");
  const folds = givenUp.filter((item) => item.kind === "folded");
  const playedBefore = new Set(
    pairs.flatMap(({ place, before: old }) =>
      old === undefined ? [] : [playing(place, place.feed.loudspeakerId)],
    ),
  );
  const settings = givenUp.filter((item) => item.kind === "setting");
  const polarities = givenUp.filter((item) => item.kind === "polarity");
  const labelsBefore = new Set(names.before.channels.values());
  const sources = new Map(before.presets.map(({ id, sourceId }) => [id, sourceId]));
  const speakersOf = speakersByChannel(before, names);
  /** Channels of the old configuration that play through one of the new one. */
  const behind = (label: string) => folds.filter(({ into }) => into.includes(label));
  const carriers = new Map(
    [...new Set(folds.flatMap(({ into }) => into))].map((label) => [
      label,
      new Set(
        [label, ...behind(label).map((fold) => fold.label)].flatMap((name) => speakersOf.get(name) ?? []),
      ),
    ]),
  );
  const sameProgram = (a: PathPlace, b: PathPlace) =>
    a.presetId === b.presetId && a.sourceChannelId === b.sourceChannelId;
  const addedByFold = (added: PathPlace) =>
    (added.feed.loudspeakerId === undefined ||
      carriers.get(added.channel)?.has(added.feed.loudspeakerId) === true) &&
    pairs.some(
      ({ place, before: old }) =>
        old !== undefined &&
        sameProgram(place, added) &&
        (added.feed.loudspeakerId !== undefined || place.feed.id === added.feed.id) &&
        behind(added.channel).some(({ label }) => label === place.channel),
    );
  return {
    missing: (place) => givenUp.some((item) => leavesOut(item, place, sources.get(place.presetId))),
    elsewhere: ({ channel, feed }) =>
      joins.some(({ loudspeakerId }) => loudspeakerId === feed.loudspeakerId) ||
      folds.some(({ label }) => label === channel),
    stillReached: (gone) =>
      pairs.some(
        ({ place, after }) =>
          after !== undefined && place.feed.id === gone.feed.id && sameProgram(place, gone),
      ),
    throughOthers: ({ channel, feed }) =>
      feed.loudspeakerId === undefined &&
      folds.some(({ label, into }) => label === channel || into.includes(channel)),
    feedLevels: (place) => feedLevels(place, pairs, folds.length + 1),
    added: (place) =>
      joins.some(
        ({ loudspeakerId, intoLoudspeakerId }) =>
          place.feed.loudspeakerId === intoLoudspeakerId && playedBefore.has(playing(place, loudspeakerId)),
      ) || addedByFold(place),
    seats: seatLevels(before, pairs, {
      joins,
      names,
      together: folds.map(({ label, into }) => ({
        loudspeakerIds: [label, ...into].flatMap((name) => [
          ...(carriers.get(name) ?? []),
          ...(speakersOf.get(name) ?? []),
        ]),
      })),
    }),
    equalizer: ({ presetId, channel }) => {
      const set = givenUp.find((item) => item.kind === "equalization" && item.presetId === presetId);
      const fold = folds.find(({ label }) => label === channel);
      if (set?.kind !== "equalization" && fold?.equalizedAs === undefined) return undefined;
      return {
        ...(set?.kind === "equalization" && { equalizationId: set.equalizationId }),
        ...(fold?.equalizedAs !== undefined && { channel: fold.equalizedAs }),
      };
    },
    equalizedAs: (label) => {
      if (labelsBefore.has(label)) return label;
      const [first] = behind(label);
      return first?.equalizedAs ?? first?.label ?? label;
    },
    polarity: (feedId) => polarities.find((item) => item.feedId === feedId)?.decided,
    laterMs: (feedId) =>
      givenUp.reduce(
        (sum, item) => (item.kind === "later" && item.feedId === feedId ? sum + item.byMs : sum),
        0,
      ),
    foldedInto: (label) => folds.find((item) => item.label === label)?.into ?? [],
    channel: (label) => givenUp.some((item) => item.kind === "channel" && item.label === label),
    loudspeaker: (id) =>
      givenUp.some(
        (item) => (item.kind === "loudspeaker" || item.kind === "joined") && item.loudspeakerId === id,
      ),
    muted: (feedId) => feedId !== undefined && isMuteDecided(settings, feedId),
    setting: (place) => decidedAt(settings, place),
  };
}

/**
 * What a feed that is no loudspeaker plays of a source channel, all its program channels in phase. Signals that count as
 * adding up in power at the seats add up in phase here: by folding n channels the level may change by 10 lg n.
 */
function feedLevels(
  { presetId, sourceChannelId, feed }: PathPlace,
  pairs: readonly PathPair[],
  channels: number,
): { readonly changeDb: number; readonly allowedDb: number } {
  const here = pairs.filter(
    ({ place }) =>
      place.presetId === presetId && place.sourceChannelId === sourceChannelId && place.feed.id === feed.id,
  );
  const loud = (side: "before" | "after") =>
    coherentSumDb(here.flatMap((pair) => (pair[side] === undefined ? [] : [pair[side].levelDb])));
  return { changeDb: loud("after") - loud("before"), allowedDb: 10 * Math.log10(channels) };
}

/** Which loudspeakers play each program channel of the old configuration, by its label. */
function speakersByChannel(
  { outputs }: Configuration,
  names: ScreenNames,
): ReadonlyMap<string, readonly string[]> {
  const speakers = new Map<string, string[]>();
  for (const { feeds, mix } of outputs) {
    if (feeds.kind !== "loudspeaker") continue;
    for (const { channelId } of mix) {
      const label = names.before.channels.get(channelId);
      if (label !== undefined) speakers.set(label, [...(speakers.get(label) ?? []), feeds.loudspeakerId]);
    }
  }
  return speakers;
}

/** One program channel of one preset on one loudspeaker. */
function playing(
  { presetId, sourceChannelId, channel }: PathPlace,
  loudspeakerId: string | undefined,
): string {
  return JSON.stringify([presetId, sourceChannelId, channel, loudspeakerId]);
}

function leavesOut(item: GivenUp, place: PathPlace, sourceId: string | undefined): boolean {
  switch (item.kind) {
    case "preset":
      return item.presetId === place.presetId;
    case "source":
      return item.sourceId === sourceId;
    case "channel":
      return item.label === place.channel;
    case "loudspeaker":
      return item.loudspeakerId === place.feed.loudspeakerId;
    case "feed":
      return item.feed === place.feed.kind;
    case "source-channel":
      return item.sourceId === sourceId && item.sourceChannelId === place.sourceChannelId;
    case "crossing":
      return (
        item.presetId === place.presetId &&
        item.sourceChannelId === place.sourceChannelId &&
        item.channel === place.channel
      );
    case "share":
      return item.feedId === place.feed.id && item.channel === place.channel;
    case "joined":
    case "folded":
    case "equalization":
    case "polarity":
    case "later":
    case "cable":
    case "setting":
      return false;
  }
}
