import type { Configuration, Output, Preset, ProgramChannel, Route } from "../../model/index.ts";
import { incoherentSumDb } from "../../units/index.ts";
import { clean } from "../staging/restage.ts";
import type { MissingChannels } from "./stand-ins.ts";

/** The configuration without some channels: their routes, equalizers and shares go with them. */
export function withoutChannels(configuration: Configuration, gone: ReadonlySet<string>): Configuration {
  const stays = ({ channelId }: { readonly channelId: string }) => !gone.has(channelId);
  return {
    ...configuration,
    channels: configuration.channels.filter(({ id }) => !gone.has(id)),
    equalizations: configuration.equalizations.map((set) => ({
      ...set,
      channels: set.channels.filter(stays),
    })),
    presets: configuration.presets.map((preset) => ({ ...preset, routing: preset.routing.filter(stays) })),
    outputs: configuration.outputs.map((output) => ({ ...output, mix: output.mix.filter(stays) })),
  };
}

/**
 * The configuration with channels played through one of another label: the channel that has the label already, or else
 * the first of them, which then takes the label. Level and delay by which the others differed go to their outputs; a
 * signal that played from the arrays of some of them and now plays from all of them is lowered so far that its power at
 * the seats stays; one that was sent to several of them keeps its first crossing. The equalizers of the others are dropped.
 */
export function foldChannels(
  configuration: Configuration,
  { channels, standIn }: MissingChannels,
): { readonly next: Configuration; readonly carrier: ProgramChannel } {
  const present = configuration.channels.find(({ label }) => label === standIn);
  const carrier = present ?? channels[0]!;
  const members = present === undefined ? channels : [present, ...channels];
  const ids = new Set(members.map(({ id }) => id));
  const soonest = Math.min(...members.map(({ delayMs }) => delayMs));
  const differences = new Map(
    members.map((member) => [
      member.id,
      { levelDb: member.levelDb - carrier.levelDb, delayMs: member.delayMs - soonest },
    ]),
  );
  return {
    carrier,
    next: {
      ...configuration,
      channels: configuration.channels
        .filter(({ id }) => id === carrier.id || !ids.has(id))
        .map((channel) =>
          channel.id === carrier.id ? { ...channel, label: standIn!, delayMs: soonest } : channel,
        ),
      equalizations: configuration.equalizations.map((set) => ({
        ...set,
        channels: set.channels.filter(({ channelId }) => channelId === carrier.id || !ids.has(channelId)),
      })),
      presets: configuration.presets.map((preset) => foldRoutes(preset, ids, carrier.id)),
      outputs: configuration.outputs.map((output) => foldMix(output, differences, carrier.id)),
    },
  };
}

function foldRoutes(preset: Preset, ids: ReadonlySet<string>, carrierId: string): Preset {
  const played = new Set<string>();
  const routing = preset.routing.flatMap((route): readonly Route[] => {
    if (!ids.has(route.channelId)) return [route];
    if (played.has(route.sourceChannelId)) return [];
    played.add(route.sourceChannelId);
    const gainsDb = preset.routing
      .filter(
        ({ sourceChannelId, channelId }) => sourceChannelId === route.sourceChannelId && ids.has(channelId),
      )
      .map(({ gainDb }) => gainDb);
    const everywhere = [...ids].map(() => 0);
    return [
      {
        ...route,
        channelId: carrierId,
        gainDb: clean(incoherentSumDb(gainsDb) - incoherentSumDb(everywhere)),
      },
    ];
  });
  return { ...preset, routing };
}

interface Difference {
  readonly levelDb: number;
  readonly delayMs: number;
}

function foldMix(output: Output, differences: ReadonlyMap<string, Difference>, carrierId: string): Output {
  const folded = output.mix.filter(({ channelId }) => differences.has(channelId));
  if (folded.length === 0) return output;
  const first = folded.find(({ channelId }) => channelId === carrierId) ?? folded[0]!;
  const { levelDb, delayMs } = differences.get(first.channelId)!;
  const alone = output.mix.every(({ channelId }) => differences.has(channelId));
  return {
    ...output,
    delayMs: alone ? clean(output.delayMs + delayMs) : output.delayMs,
    mix: output.mix
      .filter((part) => part === first || !differences.has(part.channelId))
      .map((part) =>
        part === first ? { channelId: carrierId, gainDb: clean(part.gainDb + levelDb) } : part,
      ),
  };
}
