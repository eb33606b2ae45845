import type { Configuration, SettingProof } from "../model/index.ts";
import type { PathPair, PathPlace } from "./path-pairs.ts";

/**
 * Something that the new configuration leaves out, or plays otherwise, on purpose. What it covers is reported as given up
 * by decision, apart from what is missing. Nothing else is excused: polarity, delay and response of what still plays are
 * judged as ever.
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
  | { readonly kind: "setting"; readonly setting: SettingProof["setting"]; readonly feedId?: string };

/** Says what the decisions cover. */
export interface Decided {
  /** A path of the old configuration that is missing or silent. */
  readonly missing: (place: PathPlace) => boolean;
  /** A path that is new. */
  readonly added: (place: PathPlace) => boolean;
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
    setting: ({ setting, feedId }) =>
      givenUp.some(
        (item) =>
          item.kind === "setting" &&
          item.setting === setting &&
          (item.feedId === undefined || item.feedId === feedId),
      ),
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
