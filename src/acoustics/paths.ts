import { coherentSumDb } from "../base/units/index.ts";
import type { Attempt } from "./attempt.ts";
import type { AcousticConfiguration, AcousticPolarity, AcousticPreset } from "./configuration.ts";
import type { FilterResponse } from "./filter-response.ts";
import { checkNumber, type SettingPlace, unknownId } from "./limits.ts";
import type { OutputResponse } from "./output-response.ts";

/** One way that sound can take through the unit, named by ids, with everything but its filters summed up. */
export interface Path {
  readonly presetId: string;
  readonly sourceChannelId: string;
  /** The program channel. */
  readonly channelId: string;
  readonly outputId: string;
  /** Sum of all levels and gains in dB: source channel, routing, preset, program channel, mix, output. */
  readonly levelDb: number;
  /** Sum of all delays in ms: unit latency, preset, program channel, output. */
  readonly delayMs: number;
  readonly polarity: AcousticPolarity;
  /** Whether the program channel or the output is muted. A mute is a setting, not a filter: the response ignores it. */
  readonly muted: boolean;
  /** The equalizer of the program channel in the preset's EQ set. Shared with other paths. */
  readonly equalization: FilterResponse;
  /** The filters of the output. Shared with other paths. */
  readonly output: FilterResponse;
}

/** What the list of paths is made from. */
export interface PathParts {
  readonly equalizations: ReadonlyMap<string, ReadonlyMap<string, FilterResponse | undefined>>;
  readonly outputs: ReadonlyMap<string, OutputResponse>;
  /** The response of a program channel without equalizer. */
  readonly flat: FilterResponse;
  readonly latencyMs: number;
  readonly attempt: Attempt;
}

/** A stretch of a path: where it leads, its level in dB, its delay in ms. */
interface Stretch {
  readonly id: string;
  readonly levelDb: number;
  readonly delayMs: number;
  readonly muted: boolean;
}

/** From a program channel to an output. */
interface OutputStretch extends Stretch {
  readonly polarity: AcousticPolarity;
  readonly filters: FilterResponse;
}

/**
 * Every path of a configuration, by preset, routing and output in the document's order. A crossing or a share of a mix
 * that is listed twice is one path with both gains added (in phase).
 */
export function listPaths(configuration: AcousticConfiguration, parts: PathParts): readonly Path[] {
  const outputsOf = outputStretches(configuration, parts);
  const channels = channelStretches(configuration, parts.attempt);
  return configuration.presets.flatMap((preset, index) => {
    const place = `/presets/${index}`;
    return (
      parts.attempt(() => presetPaths(preset, place, { configuration, parts, channels, outputsOf })) ?? []
    );
  });
}

interface PresetWork {
  readonly configuration: AcousticConfiguration;
  readonly parts: PathParts;
  readonly channels: ReadonlyMap<string, Stretch | undefined>;
  readonly outputsOf: ReadonlyMap<string, readonly OutputStretch[]>;
}

function presetPaths(preset: AcousticPreset, place: SettingPlace, work: PresetWork): readonly Path[] {
  const { parts, channels, outputsOf } = work;
  checkNumber("levelDb", preset.levelDb, `${place}/levelDb`);
  checkNumber("delayMs", preset.delayMs, `${place}/delayMs`);
  const inputs = sourceGains(preset, place, work.configuration);
  const set = parts.equalizations.get(preset.equalizationId);
  if (set === undefined) throw unknownId(preset.equalizationId, `${place}/equalizationId`);
  return mergedRoutes(preset, place, parts.attempt).flatMap((route) => {
    const inputGainDb = parts.attempt(() =>
      found(inputs, route.sourceChannelId, `${route.place}/sourceChannelId`),
    );
    const channel = parts.attempt(() => found(channels, route.channelId, `${route.place}/channelId`));
    const equalization = set.has(route.channelId) ? set.get(route.channelId) : parts.flat;
    if (inputGainDb === undefined || channel === undefined || equalization === undefined) return [];
    return (outputsOf.get(route.channelId) ?? []).map((output) => ({
      presetId: preset.id,
      sourceChannelId: route.sourceChannelId,
      channelId: route.channelId,
      outputId: output.id,
      levelDb: inputGainDb + route.gainDb + preset.levelDb + channel.levelDb + output.levelDb,
      delayMs: parts.latencyMs + preset.delayMs + channel.delayMs + output.delayMs,
      polarity: output.polarity,
      muted: channel.muted || output.muted,
      equalization,
      output: output.filters,
    }));
  });
}

/** The gain in dB of every channel of the preset's source. */
function sourceGains(
  preset: AcousticPreset,
  place: SettingPlace,
  configuration: AcousticConfiguration,
): ReadonlyMap<string, number> {
  const index = configuration.sources.findIndex(({ id }) => id === preset.sourceId);
  const source = configuration.sources[index];
  if (source === undefined) throw unknownId(preset.sourceId, `${place}/sourceId`);
  return new Map(
    source.channels.map(({ id, gainDb }, channel) => {
      checkNumber("levelDb", gainDb, `/sources/${index}/channels/${channel}/gainDb`);
      return [id, gainDb];
    }),
  );
}

interface MergedRoute {
  readonly sourceChannelId: string;
  readonly channelId: string;
  readonly gainDb: number;
  readonly place: SettingPlace;
}

function mergedRoutes(preset: AcousticPreset, place: SettingPlace, attempt: Attempt): readonly MergedRoute[] {
  const merged = new Map<string, MergedRoute>();
  preset.routing.forEach(({ sourceChannelId, channelId, gainDb }, index) => {
    const at = `${place}/routing/${index}`;
    attempt(() => {
      checkNumber("levelDb", gainDb, `${at}/gainDb`);
      const key = JSON.stringify([sourceChannelId, channelId]);
      const known = merged.get(key);
      merged.set(
        key,
        known === undefined
          ? { sourceChannelId, channelId, gainDb, place: at }
          : { ...known, gainDb: coherentSumDb([known.gainDb, gainDb]) },
      );
    });
  });
  return [...merged.values()];
}

function channelStretches(
  configuration: AcousticConfiguration,
  attempt: Attempt,
): ReadonlyMap<string, Stretch | undefined> {
  return new Map(
    configuration.channels.map(({ id, levelDb, delayMs, mute }, index) => [
      id,
      attempt(() => {
        checkNumber("levelDb", levelDb, `/channels/${index}/levelDb`);
        checkNumber("delayMs", delayMs, `/channels/${index}/delayMs`);
        return { id, levelDb, delayMs, muted: mute };
      }),
    ]),
  );
}

/** The outputs that every program channel reaches. Outputs without a response are left out. */
function outputStretches(
  configuration: AcousticConfiguration,
  { outputs }: PathParts,
): ReadonlyMap<string, readonly OutputStretch[]> {
  const byChannel = new Map<string, OutputStretch[]>();
  for (const output of configuration.outputs) {
    const response = outputs.get(output.id);
    for (const [channelId, mixDb] of response?.mixDb ?? []) {
      const stretch = {
        id: output.id,
        levelDb: mixDb + output.gainDb,
        delayMs: output.delayMs,
        polarity: output.polarity,
        muted: output.mute,
        filters: response!.filters,
      };
      const others = byChannel.get(channelId);
      if (others === undefined) byChannel.set(channelId, [stretch]);
      else others.push(stretch);
    }
  }
  return byChannel;
}

function found<Value>(values: ReadonlyMap<string, Value>, id: string, place: SettingPlace): Value {
  if (!values.has(id)) throw unknownId(id, place);
  return values.get(id)!;
}
