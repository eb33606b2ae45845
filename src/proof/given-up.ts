import type { Configuration, SettingProof } from "../model/index.ts";
import type { PathPair, PathPlace } from "./path-pairs.ts";
import type { ScreenNames } from "./screen-names.ts";
import { type SeatLevels, seatLevels } from "./seat-levels.ts";

/**
 * Something that the new configuration leaves out, or plays otherwise, on purpose. What it covers is reported as given up
 * by decision, apart from what is missing. Nothing else is excused: what a decision does not cover is judged as ever, on
 * the same path too.
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
  /** Polarity of a feed: the unit cannot invert it. */
  | { readonly kind: "polarity"; readonly feedId: string }
  /** A feed plays later than before (earlier: negative), in ms: by so much, and by no more or less. */
  | { readonly kind: "later"; readonly feedId: string; readonly byMs: number }
  /** One setting; without a feed named, at every feed. A high-pass, low-pass or FIR filter covers what it does to sound. */
  | { readonly kind: "setting"; readonly setting: SettingProof["setting"]; readonly feedId?: string };

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
  /** A change of level of a path to a feed that is no loudspeaker of the auditorium: it has no level at the seats. */
  readonly level: (place: PathPlace) => boolean;
  /** A path that is new. */
  readonly added: (place: PathPlace) => boolean;
  /** A change of the high-pass or the low-pass of a feed. */
  readonly crossover: (feedId: string) => boolean;
  /** A change of the FIR filter of a feed. */
  readonly fir: (feedId: string) => boolean;
  /** How loud it is at the seats what loudspeakers play together by decision. */
  readonly seats: SeatLevels;
  /** The EQ set and program channel (label) of the old configuration whose equalizer a path has now. */
  readonly equalizer: (
    place: PathPlace,
  ) => { readonly equalizationId?: string; readonly channel?: string } | undefined;
  /** Polarity of a feed. */
  readonly polarity: (feedId: string) => boolean;
  /** By how much a feed has to play later, in ms. */
  readonly laterMs: (feedId: string) => number;
  /** Labels of the channels through which a channel of the old configuration plays now. */
  readonly foldedInto: (label: string) => readonly string[];
  /** A program channel, by its label. */
  readonly channel: (label: string) => boolean;
  /** A loudspeaker as a whole. */
  readonly loudspeaker: (loudspeakerId: string) => boolean;
  /** A setting; without a feed named in the decision, at every feed. */
  readonly setting: (setting: Pick<SettingProof, "setting" | "feedId">) => boolean;
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
  const setting = ({ setting: name, feedId }: Pick<SettingProof, "setting" | "feedId">) =>
    givenUp.some(
      (item) =>
        item.kind === "setting" &&
        item.setting === name &&
        (item.feedId === undefined || item.feedId === feedId),
    );
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
    level: ({ channel, feed }) =>
      feed.loudspeakerId === undefined && folds.some(({ label }) => label === channel),
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
    polarity: (feedId) => givenUp.some((item) => item.kind === "polarity" && item.feedId === feedId),
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
    muted: (feedId) => feedId !== undefined && setting({ setting: "mute", feedId }),
    crossover: (feedId) =>
      setting({ setting: "high-pass", feedId }) || setting({ setting: "low-pass", feedId }),
    fir: (feedId) => setting({ setting: "fir", feedId }),
    setting,
  };
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
    case "setting":
      return false;
  }
}
