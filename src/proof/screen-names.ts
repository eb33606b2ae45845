import {
  type Configuration,
  carriedBy,
  type FeedProof,
  type Format,
  type Output,
  type Preset,
  type Source,
  type SourceChannel,
} from "../model/index.ts";
import { outputName } from "../words/index.ts";
import { sourceNames } from "./source-names.ts";

/** What an output feeds, named from the screen's side. */
export type FeedName = Pick<FeedProof, "id" | "label" | "kind" | "loudspeakerId" | "wayId">;

/**
 * The names that both configurations have in common, whatever unit they are for: presets by id (slots change), program
 * channels by label, feeds by loudspeaker and way, source channels by what they carry or by their position. Connectors,
 * slots and list order never count.
 */
export interface ScreenNames {
  readonly before: DocumentNames;
  readonly after: DocumentNames;
  /** Every feed of either configuration, in the order of the loudspeakers and their ways. */
  readonly feeds: readonly FeedName[];
}

export interface DocumentNames {
  /** By id of the program channel. */
  readonly channels: ReadonlyMap<string, string>;
  /** By id of the output: what it feeds. Spare outputs have no name. */
  readonly feeds: ReadonlyMap<string, FeedName>;
  /** The name of a source: its key in the old configuration. */
  readonly source: (sourceId: string) => string;
  /** The name of a preset's source channel. */
  readonly sourceChannel: (presetId: string, sourceChannelId: string) => string;
}

/** Finds the names that pair the paths of two configurations. */
export function screenNames(before: Configuration, after: Configuration): ScreenNames {
  const feedsBefore = feedNames(before);
  const feedsAfter = feedNames(after, feedsBefore);
  // The old words win.
  const feeds = new Map([...feedsAfter.values(), ...feedsBefore.values()].map((feed) => [feed.id, feed]));
  const order = wayOrder(before, after);
  return {
    before: {
      channels: channelNames(before),
      feeds: feedsBefore,
      source: (id) => id,
      sourceChannel: (_presetId, id) => id,
    },
    after: {
      channels: channelNames(after),
      feeds: feedsAfter,
      source: sourceNames(before, after),
      sourceChannel: sourceChannelNames(before, after),
    },
    feeds: [...feeds.values()].sort((a, b) => order(a) - order(b) || (a.id < b.id ? -1 : 1)),
  };
}

/** Ranks feeds in the order of the loudspeakers and their ways, the old configuration's first; other feeds come last. */
function wayOrder(...documents: readonly Configuration[]): (feed: FeedName) => number {
  const ways = documents.flatMap(({ loudspeakers }) =>
    loudspeakers.flatMap(({ id, ways }) => ways.map((way) => JSON.stringify([id, way.id]))),
  );
  return ({ loudspeakerId, wayId }) => {
    const rank = ways.indexOf(JSON.stringify([loudspeakerId, wayId]));
    return rank < 0 ? ways.length : rank;
  };
}

/** Program channels go by label; the id is added where a label stands twice. */
function channelNames({ channels }: Configuration): ReadonlyMap<string, string> {
  const labels = channels.map(({ label }) => label);
  return new Map(
    channels.map(({ id, label }) => [
      id,
      labels.indexOf(label) === labels.lastIndexOf(label) ? label : `${label} ${id}`,
    ]),
  );
}

/**
 * By id of the output. Where several outputs feed the same, each is counted; one that the old configuration has under
 * the same id takes the same number, the others follow in the order of their ids.
 */
function feedNames(
  configuration: Configuration,
  before?: ReadonlyMap<string, FeedName>,
): ReadonlyMap<string, FeedName> {
  const { outputs } = configuration;
  const names = new Map<string, FeedName>();
  const taken = new Set<string>();
  const give = ({ id }: Output, name: FeedName) => {
    names.set(id, name);
    taken.add(name.id);
  };
  for (const output of outputs) {
    const old = before?.get(output.id);
    const name = feedName(configuration, output);
    if (old !== undefined && name !== undefined && isOfFeed(old.id, name.id)) give(output, old);
  }
  for (const output of outputs.toSorted((a, b) => (a.id < b.id ? -1 : 1))) {
    const name = feedName(configuration, output);
    if (name === undefined || names.has(output.id)) continue;
    let number = 1;
    while (taken.has(numbered(name, number).id)) number++;
    give(output, numbered(name, number));
  }
  return names;
}

function isOfFeed(numberedId: string, feedId: string): boolean {
  return numberedId.replace(/#\d+$/, "") === feedId;
}

function numbered(name: FeedName, number: number): FeedName {
  return number === 1
    ? name
    : { ...name, id: `${name.id}#${number}`, label: `${name.label}, output ${number}` };
}

function feedName(configuration: Configuration, output: Output): FeedName | undefined {
  const { feeds } = output;
  if (feeds.kind === "spare") return undefined;
  const label = outputName(configuration, output);
  if (feeds.kind !== "loudspeaker") return { id: feeds.kind, label, kind: feeds.kind };
  const { kind, loudspeakerId, wayId } = feeds;
  return { id: `${loudspeakerId}/${wayId}`, label, kind, loudspeakerId, wayId };
}

/**
 * Names of the new configuration's source channels: the id of the old channel that the same preset takes from the same
 * place of the programme.
 */
function sourceChannelNames(before: Configuration, after: Configuration): DocumentNames["sourceChannel"] {
  const oldPresets = new Map(before.presets.map((preset) => [preset.id, preset]));
  const newSources = new Set(after.sources.map(({ id }) => id));
  const oldIds = new Set(before.sources.flatMap(({ channels }) => channels.map(({ id }) => id)));
  const byRole = new Map<string, ReadonlyMap<string, string>>();
  const byPreset = new Map<string, ReadonlyMap<string, string>>();
  for (const preset of after.presets) {
    const old = oldPresets.get(preset.id);
    const from = old && programmeOf(before, old);
    const to = programmeOf(after, preset);
    if (from === undefined || to === undefined) continue;
    // The old source is still there, but the preset takes another one.
    if (from.source.id !== to.source.id && newSources.has(from.source.id)) continue;
    const role = JSON.stringify([from.source.id, from.format, to.source.id, to.format]);
    const pairs = byRole.get(role) ?? pairedChannels(from, to);
    byRole.set(role, pairs);
    byPreset.set(preset.id, pairs);
  }
  return (presetId, id) =>
    byPreset.get(presetId)?.get(id) ?? (oldIds.has(id) ? `${id} (new configuration)` : id);
}

/** A source as a preset takes it. */
interface Programme {
  readonly source: Source;
  readonly format: Format;
}

function programmeOf({ sources }: Configuration, { sourceId, format }: Preset): Programme | undefined {
  const source = sources.find(({ id }) => id === sourceId);
  return source && { source, format };
}

/**
 * Pairs the channels of two programmes by what they carry, then by position, then by id. The id comes last: a channel
 * that kept its id but moved to another position carries something else now.
 */
function pairedChannels(from: Programme, to: Programme): ReadonlyMap<string, string> {
  const pairs = new Map<string, string>();
  const open = new Set(from.source.channels);
  for (const nameOf of [carriedName, positionName, idName]) {
    for (const channel of to.source.channels) {
      const name = nameOf(channel, to);
      if (name === undefined || pairs.has(channel.id)) continue;
      const partner = [...open].find((candidate) => nameOf(candidate, from) === name);
      if (partner === undefined) continue;
      open.delete(partner);
      pairs.set(channel.id, partner.id);
    }
  }
  return pairs;
}

type ChannelName = string | number | undefined;

function carriedName(channel: SourceChannel, { source, format }: Programme): ChannelName {
  const carried = carriedBy(source, channel, format);
  if (carried === undefined || carried === "unused") return undefined;
  const same = source.channels.filter((other) => carriedBy(source, other, format) === carried);
  return same.length === 1 ? carried : undefined;
}

function positionName({ position }: SourceChannel): ChannelName {
  return position;
}

function idName({ id }: SourceChannel): ChannelName {
  return id;
}
