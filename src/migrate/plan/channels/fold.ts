import { incoherentSumDb } from "../../../base/units/index.ts";
import type { Configuration, Output, Preset, ProgramChannel, Route } from "../../../model/index.ts";
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
 * the seats stays, each array as loud as the calibration record states for its channel; one that was sent to several of
 * them keeps its first crossing. The equalizers of the others are dropped.
 */
export function foldChannels(
  configuration: Configuration,
  { channels, standIn }: MissingChannels,
): { readonly next: Configuration; readonly carrier: ProgramChannel } {
  const present = configuration.channels.find(({ label }) => label === standIn);
  const carrier = present ?? channels[0]!;
  const members = present === undefined ? channels : [present, ...channels];
  const ids = new Set(members.map(({ id }) => id));
  const loudness = loudnessOf(configuration, [...ids]);
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
      presets: configuration.presets.map((preset) => foldRoutes(preset, loudness, carrier.id)),
      outputs: configuration.outputs.map((output) => foldMix(output, differences, carrier.id)),
    },
  };
}

/** How loud the arrays of each channel play, in dB: by the calibration record if it knows all of them, else alike. */
function loudnessOf({ calibration }: Configuration, ids: readonly string[]): ReadonlyMap<string, number> {
  const measured = new Map(calibration?.channels.map(({ channelId, levelDbC }) => [channelId, levelDbC]));
  const known = ids.every((id) => measured.has(id));
  return new Map(ids.map((id) => [id, known ? measured.get(id)! : 0]));
}

function foldRoutes(preset: Preset, loudness: ReadonlyMap<string, number>, carrierId: string): Preset {
  const everywhere = incoherentSumDb([...loudness.values()]);
  const played = new Set<string>();
  const routing = preset.routing.flatMap((route): readonly Route[] => {
    if (!loudness.has(route.channelId)) return [route];
    if (played.has(route.sourceChannelId)) return [];
    played.add(route.sourceChannelId);
    const heard = preset.routing.flatMap(({ sourceChannelId, channelId, gainDb }) => {
      const loud = sourceChannelId === route.sourceChannelId ? loudness.get(channelId) : undefined;
      return loud === undefined ? [] : [gainDb + loud];
    });
    return [
      {
        ...route,
        channelId: carrierId,
        gainDb: clean(incoherentSumDb(heard) - everywhere),
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
