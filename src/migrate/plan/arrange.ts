import {
  type Configuration,
  itemKey,
  type KeyedItem,
  type MicrophonePosition,
  type UnitProfile,
} from "../../model/index.ts";
import {
  automationOrder,
  byPanel,
  channelRank,
  compareText,
  equalizationOrder,
  interfaceOrder,
  type Order,
  outputOrder,
  presetOrder,
  sourceOrder,
} from "./order.ts";

/**
 * The configuration with every list whose order says nothing in an order that comes from what its items are. Steps work on
 * it, so no list order of a document can change what they choose. Filters stay in processing order, ways as they are.
 */
export function arranged(configuration: Configuration, profile: UnitProfile): Configuration {
  const rank = new Map(configuration.channels.map(({ id, label }) => [id, channelRank(label)]));
  const byChannel: Order<{ readonly channelId: string }> = (a, b) =>
    (rank.get(a.channelId) ?? 0) - (rank.get(b.channelId) ?? 0) || compareText(a.channelId, b.channelId);
  const positions = new Map(
    configuration.sources.flatMap(({ channels }) =>
      channels.map(({ id, position }) => [id, position] as const),
    ),
  );
  const position = (id: string) => positions.get(id) ?? 0;
  const outputs = configuration.outputs
    .map((output) => ({ ...output, mix: output.mix.toSorted(byChannel) }))
    .sort(outputOrder(profile));
  const firstOutput = (loudspeakerId: string) => {
    const index = outputs.findIndex(
      ({ feeds }) => feeds.kind === "loudspeaker" && feeds.loudspeakerId === loudspeakerId,
    );
    return index < 0 ? outputs.length : index;
  };
  return {
    ...configuration,
    sources: configuration.sources
      .map((source) => ({
        ...source,
        channels: source.channels.toSorted((a, b) => a.position - b.position || compareText(a.id, b.id)),
      }))
      .sort(sourceOrder(profile)),
    channels: configuration.channels.toSorted(
      (a, b) => channelRank(a.label) - channelRank(b.label) || compareText(a.id, b.id),
    ),
    equalizations: configuration.equalizations
      .map((set) => ({ ...set, channels: set.channels.toSorted(byChannel) }))
      .sort(equalizationOrder(configuration)),
    presets: configuration.presets
      .map((preset) => ({
        ...preset,
        routing: preset.routing.toSorted(
          (a, b) =>
            position(a.sourceChannelId) - position(b.sourceChannelId) ||
            byChannel(a, b) ||
            compareText(a.id, b.id),
        ),
      }))
      .sort(presetOrder),
    loudspeakers: configuration.loudspeakers.toSorted(
      (a, b) =>
        firstOutput(a.id) - firstOutput(b.id) || compareText(a.label, b.label) || compareText(a.id, b.id),
    ),
    outputs,
    automation: configuration.automation.toSorted(automationOrder(profile)),
    network: {
      ...configuration.network,
      interfaces: configuration.network.interfaces.toSorted(interfaceOrder),
    },
    ...(configuration.calibration === undefined
      ? {}
      : {
          calibration: {
            ...configuration.calibration,
            channels: configuration.calibration.channels.toSorted(byChannel),
            microphonePositions: configuration.calibration.microphonePositions.toSorted(byPlace),
          },
        }),
  };
}

const byPlace: Order<MicrophonePosition> = (a, b) =>
  a.yM - b.yM || a.xM - b.xM || a.zM - b.zM || compareText(a.id, b.id);

/** The profile with its connectors along the rear panel. */
export function arrangedProfile(profile: UnitProfile): UnitProfile {
  return { ...profile, connectors: profile.connectors.toSorted(byPanel) };
}

/** Lists whose order says something: filters in processing order, ways from the lowest band up. */
const ORDERED_LISTS: ReadonlySet<string> = new Set(["parametric", "filters", "ways"]);

/** A document with its other keyed lists in the order in which another version has them; what is new comes last. */
export function inOrderOf<T>(document: T, model: unknown, name = ""): T {
  if (Array.isArray(document)) {
    if (ORDERED_LISTS.has(name)) return document;
    return listInOrder(document, Array.isArray(model) ? model : []) as T;
  }
  if (typeof document !== "object" || document === null) return document;
  const before = (model ?? {}) as Readonly<Record<string, unknown>>;
  const names = Object.keys(document);
  const known = Object.keys(before).filter((key) => names.includes(key));
  const added = names.filter((key) => !known.includes(key));
  const members = document as Readonly<Record<string, unknown>>;
  return Object.fromEntries(
    [...known, ...added].map((key) => [key, inOrderOf(members[key], before[key], key)]),
  ) as T;
}

function listInOrder(list: readonly unknown[], model: readonly unknown[]): readonly unknown[] {
  const places = new Map(model.map((item, index) => [keyOf(item), { item, index }]));
  const place = (item: unknown) => places.get(keyOf(item))?.index ?? model.length;
  const isKeyed = list.every((item) => keyOf(item) !== undefined);
  const sorted = isKeyed ? list.toSorted((a, b) => place(a) - place(b)) : list;
  return sorted.map((item) => inOrderOf(item, places.get(keyOf(item))?.item));
}

function keyOf(item: unknown): string | undefined {
  return typeof item === "object" && item !== null ? itemKey(item as KeyedItem) : undefined;
}
