import {
  type AcousticResponses,
  acousticResponses,
  frequencyGrid,
  type LoudspeakerSum,
  loudspeakerSums,
} from "../acoustics/index.ts";
import type {
  ChannelLabel,
  Configuration,
  Loudspeaker,
  Output,
  Preset,
  ProgramChannel,
  Source,
  SourceChannel,
  UnitProfile,
  Way,
} from "../model/index.ts";
import { unitAcoustics } from "../profile/index.ts";

/** An item with its position in its list, which is where its place in the document begins. */
export interface Indexed<Item> {
  readonly item: Item;
  readonly index: number;
}

/** An output that feeds a way of a loudspeaker in the auditorium. */
export interface FedWay extends Indexed<Output> {
  readonly loudspeaker: Loudspeaker;
  readonly way: Way;
}

/** A channel of a source, with its source. */
export interface SourcedChannel {
  readonly source: Source;
  readonly channel: SourceChannel;
}

/** Everything that rules share about one configuration. Computed when first asked for. */
export interface RuleContext {
  readonly configuration: Configuration;
  /** Absent where it is not at hand; rules that say `needsProfile` are then silent. */
  readonly profile: UnitProfile | undefined;
  /** A profile that was given, but is of another model. */
  readonly otherProfile: UnitProfile | undefined;
  /** RFC 3339 full-date of the check; absent: rules about age are silent. */
  readonly today: string | undefined;
  readonly channels: ReadonlyMap<string, Indexed<ProgramChannel>>;
  readonly presets: ReadonlyMap<string, Indexed<Preset>>;
  readonly outputs: ReadonlyMap<string, Indexed<Output>>;
  readonly sources: ReadonlyMap<string, Indexed<Source>>;
  readonly sourceChannels: ReadonlyMap<string, SourcedChannel>;
  readonly loudspeakers: ReadonlyMap<string, Indexed<Loudspeaker>>;
  /** Every output that feeds an existing way of an existing loudspeaker, in the order of the document. */
  readonly fedWays: readonly FedWay[];
  /** Labels of the program channels in the outputs of each loudspeaker. */
  readonly labelsOf: (output: Output) => readonly ChannelLabel[];
  /** Every twelfth of an octave; parts that cannot be computed are left out, since other rules tell about them. */
  readonly responses: () => AcousticResponses;
  /** Crossovers alone, with ideal drivers, of one loudspeaker of every sort (see `crossoverSort`). */
  readonly crossoverSums: () => readonly LoudspeakerSum[];
}

export interface ContextOptions {
  readonly profile?: UnitProfile | undefined;
  readonly today?: string | undefined;
}

export function ruleContext(
  configuration: Configuration,
  { profile: given, today }: ContextOptions = {},
): RuleContext {
  const isOwn = given?.id === configuration.unit.profileId;
  const profile = isOwn ? given : undefined;
  const channels = indexed(configuration.channels);
  const loudspeakers = indexed(configuration.loudspeakers);
  const unit = profile && unitAcoustics(profile, configuration.unit.sampleRateHz);
  const respond = (pointsPerOctave: number, part: Configuration = configuration) =>
    acousticResponses(part, {
      frequenciesHz: frequencyGrid({ pointsPerOctave, belowHz: configuration.unit.sampleRateHz / 2 }),
      onError: () => {},
      ...(unit === undefined ? {} : { unit }),
    });
  return {
    configuration,
    profile,
    otherProfile: isOwn ? undefined : given,
    today,
    channels,
    loudspeakers,
    presets: indexed(configuration.presets),
    outputs: indexed(configuration.outputs),
    sources: indexed(configuration.sources),
    sourceChannels: new Map(
      configuration.sources.flatMap((source) =>
        source.channels.map((channel) => [channel.id, { source, channel }] as const),
      ),
    ),
    fedWays: fedWays(configuration, loudspeakers),
    labelsOf: (output) => output.mix.flatMap((part) => channels.get(part.channelId)?.item.label ?? []),
    responses: once(() => respond(12)),
    crossoverSums: once(() => loudspeakerSums(respond(12, activePart(configuration)), { of: "crossovers" })),
  };
}

function indexed<Item extends { readonly id: string }>(
  items: readonly Item[],
): ReadonlyMap<string, Indexed<Item>> {
  return new Map(items.map((item, index) => [item.id, { item, index }]));
}

function fedWays(
  configuration: Configuration,
  loudspeakers: ReadonlyMap<string, Indexed<Loudspeaker>>,
): readonly FedWay[] {
  return configuration.outputs.flatMap((item, index) => {
    const { feeds } = item;
    if (feeds.kind !== "loudspeaker") return [];
    const loudspeaker = loudspeakers.get(feeds.loudspeakerId)?.item;
    const way = loudspeaker?.ways.find((candidate) => candidate.id === feeds.wayId);
    return loudspeaker === undefined || way === undefined ? [] : [{ item, index, loudspeaker, way }];
  });
}

/**
 * Only what the sum of ways needs: loudspeakers with more than one way, each played by a channel of its own, one of
 * every sort. A sum with ideal drivers depends on crossovers and polarities alone.
 */
function activePart(configuration: Configuration): Configuration {
  const [channel] = configuration.channels;
  const sorts = new Set<string>();
  const loudspeakers = configuration.loudspeakers.filter(({ id, ways }) => {
    const sort = crossoverSort(configuration, id);
    if (ways.length < 2 || sorts.has(sort)) return false;
    sorts.add(sort);
    return true;
  });
  const ids = new Set(loudspeakers.map((item) => item.id));
  const outputs = configuration.outputs
    .filter(({ feeds }) => feeds.kind === "loudspeaker" && ids.has(feeds.loudspeakerId))
    .map((output) => ({
      ...output,
      mix: channel === undefined ? [] : [{ channelId: channel.id, gainDb: 0 }],
      filters: [],
    }));
  return { ...configuration, presets: [], equalizations: [], loudspeakers, outputs };
}

/** A text that two loudspeakers share if their ways have the same names, crossovers and polarities. */
export function crossoverSort({ outputs }: Configuration, loudspeakerId: string): string {
  return outputs
    .flatMap(({ feeds, highPass, lowPass, polarity }) =>
      feeds.kind === "loudspeaker" && feeds.loudspeakerId === loudspeakerId
        ? [JSON.stringify([feeds.wayId, highPass, lowPass, polarity])]
        : [],
    )
    .sort()
    .join("\n");
}

function once<Value>(compute: () => Value): () => Value {
  let made: { readonly value: Value } | undefined;
  return () => {
    made ??= { value: compute() };
    return made.value;
  };
}
