import type { Configuration, SettingProof } from "../model/index.ts";
import type { PathPair, PathPlace } from "./path-pairs.ts";

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
   * The output of one loudspeaker feeds another one as well: what only the other one played is new there, and the level
   * of both may change.
   */
  | { readonly kind: "joined"; readonly loudspeakerId: string; readonly intoLoudspeakerId: string }
  /** One setting; without a feed named, at every feed. A high-pass, low-pass or FIR filter covers what it does to sound. */
  | { readonly kind: "setting"; readonly setting: SettingProof["setting"]; readonly feedId?: string };

/** Says what the decisions cover. */
export interface Decided {
  /** A path of the old configuration that is missing. */
  readonly missing: (place: PathPlace) => boolean;
  /** A feed that is muted now. */
  readonly muted: (feedId: string | undefined) => boolean;
  /** A path that is new. */
  readonly added: (place: PathPlace) => boolean;
  /** A change of the high-pass or the low-pass of a feed. */
  readonly crossover: (feedId: string) => boolean;
  /** A change of the FIR filter of a feed. */
  readonly fir: (feedId: string) => boolean;
  /** A change of level of a path that still plays. */
  readonly level: (place: PathPlace) => boolean;
  /** A loudspeaker as a whole. */
  readonly loudspeaker: (loudspeakerId: string) => boolean;
  /** A setting; without a feed named in the decision, at every feed. */
  readonly setting: (setting: Pick<SettingProof, "setting" | "feedId">) => boolean;
}

/** Prepares decisions for the paths of a configuration. */
export function decided(
  givenUp: readonly GivenUp[],
  before: Configuration,
  pairs: readonly PathPair[],
): Decided {
  const joins = givenUp.filter((item) => item.kind === "joined");
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
  return {
    missing: (place) => givenUp.some((item) => leavesOut(item, place, sources.get(place.presetId))),
    added: (place) =>
      joins.some(
        ({ loudspeakerId, intoLoudspeakerId }) =>
          place.feed.loudspeakerId === intoLoudspeakerId && playedBefore.has(playing(place, loudspeakerId)),
      ),
    level: ({ feed }) => joins.some(({ intoLoudspeakerId }) => intoLoudspeakerId === feed.loudspeakerId),
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
    case "joined":
      return item.loudspeakerId === place.feed.loudspeakerId;
    case "feed":
      return item.feed === place.feed.kind;
    case "setting":
      return false;
  }
}
