import type { Configuration, Join, Output, Preset, Route } from "../../model/index.ts";
import type { Address } from "../address.ts";
import type { Reduction } from "./reduction.ts";

/** Power of two equal arrays against one: a signal that plays from both is lowered by as much in each. */
const TWO_ARRAYS_DB = 3;

export interface Reduced {
  readonly next: Configuration;
  /** Values whose number changed on the way, so that the level at the seats stays. */
  readonly restaged: readonly Address[];
  /** Places that are left out as a whole. */
  readonly gone: readonly Address[];
  readonly joins: readonly Join[];
}

export function applyReduction(configuration: Configuration, reduction: Reduction): Reduced {
  return reduction.kind === "join"
    ? join(configuration, reduction.into, reduction.from)
    : leaveOutputs(configuration, reduction.outputs);
}

function leaveOutputs(configuration: Configuration, outputs: readonly Output[]): Reduced {
  const ids = new Set(outputs.map(({ id }) => id));
  const speakers = new Set(
    outputs.flatMap(({ feeds }) => (feeds.kind === "loudspeaker" ? [feeds.loudspeakerId] : [])),
  );
  return {
    next: {
      ...configuration,
      outputs: configuration.outputs.filter(({ id }) => !ids.has(id)),
      loudspeakers: configuration.loudspeakers.filter(({ id }) => !speakers.has(id)),
    },
    restaged: [],
    joins: [],
    gone: [...[...ids].map((id) => `outputs/${id}`), ...[...speakers].map((id) => `loudspeakers/${id}`)],
  };
}

function join(configuration: Configuration, intoOld: Output, from: Output): Reduced {
  const into = configuration.outputs.find(({ id }) => id === intoOld.id)!;
  const shared = new Set(
    into.mix.map(({ channelId }) => channelId).filter((id) => from.mix.some((part) => part.channelId === id)),
  );
  const added = from.mix.filter(({ channelId }) => !shared.has(channelId));
  const lowered = into.mix.filter(({ channelId }) => !shared.has(channelId));
  const mix = [
    ...into.mix.map((part) => (shared.has(part.channelId) ? part : lower(part))),
    ...added.map(lower),
  ];
  const [a, b] = [into.feeds, from.feeds];
  const joined =
    a.kind === "loudspeaker" && b.kind === "loudspeaker"
      ? joinSpeakers(configuration, a.loudspeakerId, b.loudspeakerId)
      : configuration.loudspeakers;
  const doubled = doubledRoutes(
    configuration,
    new Set(lowered.map(({ channelId }) => channelId)),
    new Set(added.map(({ channelId }) => channelId)),
  );
  return {
    next: {
      ...configuration,
      outputs: configuration.outputs
        .filter(({ id }) => id !== from.id)
        .map((output) => (output.id === into.id ? { ...output, mix } : output)),
      loudspeakers: joined,
      presets: doubled.presets,
    },
    restaged: [
      ...lowered.map(({ channelId }) => `outputs/${into.id}/mix/${channelId}/gainDb`),
      ...doubled.restaged,
    ],
    joins:
      a.kind === "loudspeaker" && b.kind === "loudspeaker"
        ? [{ loudspeakerId: b.loudspeakerId, intoLoudspeakerId: a.loudspeakerId }]
        : [],
    gone: [`outputs/${from.id}`, ...(b.kind === "loudspeaker" ? [`loudspeakers/${b.loudspeakerId}`] : [])],
  };
}

function lower<T extends { readonly gainDb: number }>(part: T): T {
  return { ...part, gainDb: part.gainDb - TWO_ARRAYS_DB };
}

/** The arrays count as one loudspeaker from now on: "an array of loudspeakers fed alike". */
function joinSpeakers(
  configuration: Configuration,
  intoId: string,
  fromId: string,
): Configuration["loudspeakers"] {
  const from = configuration.loudspeakers.find(({ id }) => id === fromId)!;
  return configuration.loudspeakers
    .filter(({ id }) => id !== fromId)
    .map((speaker) => (speaker.id === intoId ? { ...speaker, boxes: speaker.boxes + from.boxes } : speaker));
}

/**
 * A source channel that a preset sends to a channel of either array meets itself in the joined output, in phase:
 * 6 dB louder than one alone, where before each array played it by itself. Its routes are lowered so that each array
 * plays it as loud as before.
 */
function doubledRoutes(
  configuration: Configuration,
  first: ReadonlySet<string>,
  second: ReadonlySet<string>,
): { readonly presets: readonly Preset[]; readonly restaged: readonly Address[] } {
  const restaged: Address[] = [];
  const presets = configuration.presets.map((preset) => {
    const to = (channels: ReadonlySet<string>) =>
      new Set(
        preset.routing
          .filter(({ channelId }) => channels.has(channelId))
          .map(({ sourceChannelId }) => sourceChannelId),
      );
    const [a, b] = [to(first), to(second)];
    const doubled = (route: Route) =>
      a.has(route.sourceChannelId) &&
      b.has(route.sourceChannelId) &&
      (first.has(route.channelId) || second.has(route.channelId));
    if (!preset.routing.some(doubled)) return preset;
    return {
      ...preset,
      routing: preset.routing.map((route) => {
        if (!doubled(route)) return route;
        restaged.push(`presets/${preset.id}/routing/${route.id}/gainDb`);
        return lower(route);
      }),
    };
  });
  return { presets, restaged };
}
