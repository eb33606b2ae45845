import type { Address, Configuration, Join, Output } from "../../../model/index.ts";
import { joinedLevels } from "./joined-levels.ts";
import type { Reduction } from "./reduction.ts";

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
  const levels = joinedLevels(configuration, into, from);
  const [a, b] = [into.feeds, from.feeds];
  const speakers = a.kind === "loudspeaker" && b.kind === "loudspeaker";
  return {
    next: {
      ...configuration,
      outputs: configuration.outputs
        .filter(({ id }) => id !== from.id)
        .map((output) => (output.id === into.id ? { ...output, mix: levels.mix } : output)),
      loudspeakers: speakers
        ? joinSpeakers(configuration, a.loudspeakerId, b.loudspeakerId)
        : configuration.loudspeakers,
      presets: levels.presets,
    },
    restaged: [
      ...levels.changedMix.map((channelId) => `outputs/${into.id}/mix/${channelId}/gainDb`),
      ...levels.changedRoutes.map(({ presetId, routeId }) => `presets/${presetId}/routing/${routeId}/gainDb`),
    ],
    joins: speakers ? [{ loudspeakerId: b.loudspeakerId, intoLoudspeakerId: a.loudspeakerId }] : [],
    gone: [`outputs/${from.id}`, ...(b.kind === "loudspeaker" ? [`loudspeakers/${b.loudspeakerId}`] : [])],
  };
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
