import { coherentSumDb } from "../../../base/units/index.ts";
import type {
  ChannelLabel,
  Configuration,
  Preset,
  ProgramChannel,
  Route,
  UnitProfile,
} from "../../../model/index.ts";
import { clean } from "../staging/restage.ts";

/**
 * Between which channels a channel is heard when both play it, the pairs to try in order. Common practice, no source.
 */
const BETWEEN: Readonly<Partial<Record<ChannelLabel, readonly (readonly ChannelLabel[])[]>>> = {
  Lc: [["L", "C"]],
  Rc: [["R", "C"]],
  Cs: [
    ["Lrs", "Rrs"],
    ["Ls", "Rs"],
    ["Lss", "Rss"],
  ],
};

/** The channels between which one can be played: both are in use, and the unit has them. */
export function neighboursOf(
  { channels }: Configuration,
  channel: ProgramChannel,
  to: UnitProfile,
): readonly ProgramChannel[] | undefined {
  const found = (BETWEEN[channel.label] ?? []).map((pair) =>
    pair.flatMap((label) => {
      const there = channels.find((item) => item.label === label);
      return there === undefined || !to.channels.labels.includes(label) ? [] : [there];
    }),
  );
  return found.find((pair) => pair.length === 2);
}

export interface Spread {
  readonly next: Configuration;
  /** Crossings that were there before and are louder now, since they play the channel too. */
  readonly louder: readonly { readonly presetId: string; readonly routeId: string }[];
}

/**
 * The configuration with what presets send to a channel sent to two others instead. Each gets it 3.01 dB lower, so that
 * their powers add up to what was heard; by how much the calibration record states that they were aligned to other levels
 * is made up for. What meets itself in a crossing that was there already adds in phase.
 */
export function spreadChannel(
  configuration: Configuration,
  channel: ProgramChannel,
  neighbours: readonly ProgramChannel[],
): Spread {
  const measured = (id: string) =>
    configuration.calibration?.channels.find(({ channelId }) => channelId === id)?.levelDbC;
  const shareDb = (neighbour: ProgramChannel) => {
    const [was, is] = [measured(channel.id), measured(neighbour.id)];
    return -10 * Math.log10(neighbours.length) + (was === undefined || is === undefined ? 0 : was - is);
  };
  const louder: { readonly presetId: string; readonly routeId: string }[] = [];
  const spread = (preset: Preset): Preset => {
    const moved = preset.routing.filter(({ channelId }) => channelId === channel.id);
    let routing: readonly Route[] = preset.routing.filter(({ channelId }) => channelId !== channel.id);
    for (const route of moved) {
      for (const neighbour of neighbours) {
        const gainDb = clean(route.gainDb + shareDb(neighbour));
        const met = routing.find(
          ({ sourceChannelId, channelId }) =>
            sourceChannelId === route.sourceChannelId && channelId === neighbour.id,
        );
        if (met === undefined) {
          routing = [
            ...routing,
            { ...route, id: freeId(preset, route, neighbour), channelId: neighbour.id, gainDb },
          ];
        } else {
          const sum = clean(coherentSumDb([met.gainDb, gainDb]));
          routing = routing.map((item) => (item === met ? { ...met, gainDb: sum } : item));
          if (preset.routing.includes(met)) louder.push({ presetId: preset.id, routeId: met.id });
        }
      }
    }
    return { ...preset, routing };
  };
  return { next: { ...configuration, presets: configuration.presets.map(spread) }, louder };
}

const ID_MAX = 64;

/** An id for the crossing that no other of the preset has. */
function freeId({ routing }: Preset, { id }: Route, { label }: ProgramChannel): string {
  const taken = new Set(routing.map((route) => route.id));
  for (let number = 1; ; number += 1) {
    const tail = `-${label}${number === 1 ? "" : `-${number}`}`;
    const candidate = `${id.slice(0, ID_MAX - tail.length)}${tail}`;
    if (!taken.has(candidate)) return candidate;
  }
}
