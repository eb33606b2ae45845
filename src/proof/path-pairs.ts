import type { AcousticResponses, Path } from "../acoustics/index.ts";
import type { Configuration, PathReason } from "../model/index.ts";
import type { DocumentNames, FeedName, ScreenNames } from "./screen-names.ts";

/** A path's name from the screen's side. */
export interface PathPlace {
  readonly presetId: string;
  readonly sourceChannelId: string;
  /** Label of the program channel. */
  readonly channel: string;
  readonly feed: FeedName;
}

/** One side of a path. */
export interface PathSide {
  readonly place: PathPlace;
  readonly path: Path;
  /** All gains in dB, the level of the feed in the operation settings included. */
  readonly levelDb: number;
}

/** The same path in both configurations; one side may be absent. */
export interface PathPair {
  readonly place: PathPlace;
  readonly before?: PathSide;
  readonly after?: PathSide;
  /** What the other configuration lacks, where one side is absent. */
  readonly lacks?: PathReason;
}

/** A path that exists on both sides. */
export type WholePair = PathPair & Required<Pick<PathPair, "before" | "after">>;

export function isWhole(pair: PathPair): pair is WholePair {
  return pair.before !== undefined && pair.after !== undefined;
}

interface Side {
  readonly configuration: Configuration;
  readonly responses: AcousticResponses;
  readonly names: DocumentNames;
}

/** Pairs the paths of two configurations by their names. Paths into spare outputs are none. */
export function pairPaths(
  before: Omit<Side, "names">,
  after: Omit<Side, "names">,
  names: ScreenNames,
): readonly PathPair[] {
  const beforeSide = { ...before, names: names.before };
  const afterSide = { ...after, names: names.after };
  const oldPaths = sidesByKey(beforeSide);
  const newPaths = sidesByKey(afterSide);
  const alone: PathSide[] = [];
  const pairs: PathPair[] = [];
  for (const [key, side] of oldPaths) {
    const partner = newPaths.get(key);
    newPaths.delete(key);
    if (partner === undefined) alone.push(side);
    else pairs.push({ place: side.place, before: side, after: partner });
  }
  return [...pairs, ...pairsThroughOtherChannels(alone, [...newPaths.values()], beforeSide, afterSide)];
}

/**
 * Paths left over are paired where a preset takes one source channel to one feed through just one program channel on
 * either side, however that channel is called: the sound still goes from the same place to the same place.
 */
function pairsThroughOtherChannels(
  oldPaths: readonly PathSide[],
  newPaths: readonly PathSide[],
  before: Side,
  after: Side,
): PathPair[] {
  const oldByEnds = groupByEnds(oldPaths);
  const newByEnds = groupByEnds(newPaths);
  const missing = lacking(after);
  const added = lacking(before);
  const pairs: PathPair[] = [];
  for (const [ends, old] of oldByEnds) {
    const partners = newByEnds.get(ends);
    if (old.length === 1 && partners?.length === 1) {
      newByEnds.delete(ends);
      pairs.push({ place: old[0]!.place, before: old[0]!, after: partners[0]! });
    } else {
      for (const side of old) pairs.push({ place: side.place, before: side, lacks: missing(side.place) });
    }
  }
  for (const side of [...newByEnds.values()].flat()) {
    pairs.push({ place: side.place, after: side, lacks: added(side.place) });
  }
  return pairs;
}

function groupByEnds(sides: readonly PathSide[]): Map<string, PathSide[]> {
  const groups = new Map<string, PathSide[]>();
  for (const side of sides) {
    const { presetId, sourceChannelId, feed } = side.place;
    const ends = key(presetId, sourceChannelId, feed.id);
    const group = groups.get(ends);
    if (group === undefined) groups.set(ends, [side]);
    else group.push(side);
  }
  return groups;
}

function sidesByKey({ configuration, responses, names }: Side): Map<string, PathSide> {
  const feedLevelsDb = feedLevels(configuration);
  const sides = new Map<string, PathSide>();
  for (const path of responses.paths) {
    const feed = names.feeds.get(path.outputId);
    if (feed === undefined) continue;
    const place = {
      presetId: path.presetId,
      sourceChannelId: names.sourceChannel(path.presetId, path.sourceChannelId),
      channel: names.channels.get(path.channelId)!,
      feed,
    };
    sides.set(key(place.presetId, place.sourceChannelId, place.channel, feed.id), {
      place,
      path,
      levelDb: path.levelDb + (feedLevelsDb.get(path.outputId) ?? 0),
    });
  }
  return sides;
}

/** Levels in dB that the operation settings give to feeds, by output. */
function feedLevels({ operation }: Configuration): ReadonlyMap<string, number> {
  const feeds = [operation.boothMonitor, operation.hearingImpaired, operation.narration];
  return new Map(feeds.flatMap((feed) => (feed === undefined ? [] : [[feed.outputId, feed.levelDb]])));
}

/** Says what a configuration lacks that a path would need. */
function lacking({ configuration, names }: Side): (place: PathPlace) => PathReason {
  const presets = new Map(configuration.presets.map((preset) => [preset.id, preset]));
  const channels = new Set(names.channels.values());
  const feeds = new Set([...names.feeds.values()].map(({ id }) => id));
  const sourceChannels = new Map(
    configuration.presets.map(({ id, sourceId }) => {
      const source = configuration.sources.find((candidate) => candidate.id === sourceId);
      return [id, new Set(source?.channels.map((channel) => names.sourceChannel(id, channel.id)))];
    }),
  );
  const crossings = new Set(
    configuration.presets.flatMap(({ id, routing }) =>
      routing.map(({ sourceChannelId, channelId }) =>
        key(id, names.sourceChannel(id, sourceChannelId), names.channels.get(channelId) ?? ""),
      ),
    ),
  );
  return ({ presetId, sourceChannelId, channel, feed }) => {
    if (!presets.has(presetId)) return "no-preset";
    if (!feeds.has(feed.id)) return "no-feed";
    if (!sourceChannels.get(presetId)?.has(sourceChannelId)) return "no-source-channel";
    if (!channels.has(channel)) return "no-channel";
    if (!crossings.has(key(presetId, sourceChannelId, channel))) return "no-crossing";
    return "no-mix";
  };
}

function key(...parts: readonly string[]): string {
  return JSON.stringify(parts);
}
