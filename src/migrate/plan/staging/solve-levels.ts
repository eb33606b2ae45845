import type { Configuration, NumberGrid } from "../../../model/index.ts";
import { figure } from "../figure.ts";
import { candidatesNear } from "./candidates.ts";
import { coarsestStep, type LevelGrids } from "./level-grids.ts";
import { type PresetStage, solvePresets } from "./solve-presets.ts";
import { followFeeds, solveStages } from "./solve-stages.ts";
import { speakerStages } from "./speaker-stages.ts";

/** Solves the steps of all stages; a number outside its range takes the nearest setting and is left out of the balance. */
export function solveLevels(next: Configuration, fixed: ReadonlySet<string>, grids: LevelGrids) {
  const reach = coarsestStep(next, grids);
  const near = (grid: NumberGrid, wanted: number, at: string) => {
    const found = candidatesNear(grid, wanted, { reach });
    return fixed.has(at) ? [{ value: found[0]!.value, error: 0 }] : found;
  };
  const speakers = speakerStages(next, next.outputs, (output) => ({
    id: output.id,
    own: near(grids.gain, output.gainDb, `outputs/${output.id}/gainDb`),
    channels: output.mix.map((part) => ({
      channelId: part.channelId,
      mix: near(grids.mix, part.gainDb, `outputs/${output.id}/mix/${part.channelId}/gainDb`),
    })),
  }));
  const stages = solveStages({
    speakers,
    channels: next.channels.map((channel) => ({
      id: channel.id,
      own: near(grids.channel, channel.levelDb, `channels/${channel.id}/levelDb`),
    })),
  });
  const trims = new Map<string, { readonly value: number; readonly error: number }>(
    next.sources.flatMap((source) =>
      source.channels.map((channel) => [
        channel.id,
        near(grids.trim, channel.gainDb, `sources/${source.id}/channels/${channel.id}/gainDb`)[0]!,
      ]),
    ),
  );
  const roomChannels = new Set(
    next.outputs.flatMap(({ feeds, mix }) =>
      feeds.kind === "loudspeaker" ? mix.map(({ channelId }) => channelId) : [],
    ),
  );
  const presets = solvePresets(
    next.presets.map(
      (preset): PresetStage => ({
        id: preset.id,
        own: near(grids.preset, preset.levelDb, `presets/${preset.id}/levelDb`),
        routes: preset.routing.map((route) => ({
          id: route.id,
          candidates: near(grids.route, route.gainDb, `presets/${preset.id}/routing/${route.id}/gainDb`),
          added:
            (stages.channelErrors.get(route.channelId) ?? 0) + (trims.get(route.sourceChannelId)?.error ?? 0),
          inRoom: roomChannels.has(route.channelId),
        })),
      }),
    ),
  );
  const ahead: Configuration = {
    ...next,
    sources: next.sources.map((source) => ({
      ...source,
      channels: source.channels.map((channel) => ({ ...channel, gainDb: trims.get(channel.id)!.value })),
    })),
    channels: next.channels.map((channel) => ({ ...channel, levelDb: stages.channels.get(channel.id)! })),
    presets: next.presets.map((preset) => ({
      ...preset,
      levelDb: presets.presets.get(preset.id)!,
      routing: preset.routing.map((route) => ({
        ...route,
        gainDb: presets.routes.get(preset.id)!.get(route.id)!,
      })),
    })),
  };
  const feeds = followFeeds(
    speakers.filter(({ inRoom }) => !inRoom),
    errorsAhead(next, ahead),
  );
  const outputs = new Map([...stages.outputs, ...feeds.outputs]);
  const mixes = new Map([...stages.mixes, ...feeds.mixes]);
  return {
    next: {
      ...ahead,
      outputs: next.outputs.map((output) => ({
        ...output,
        gainDb: outputs.get(output.id)!,
        mix: output.mix.map((part) => ({
          ...part,
          gainDb: mixes.get(output.id)!.get(part.channelId)!,
        })),
      })),
    },
    spread: {
      betweenWays: figure(stages.betweenWays, 3),
      betweenChannels: figure(Math.max(stages.betweenChannels, presets.betweenChannels), 3),
      betweenPresets: figure(presets.betweenPresets, 3),
      common: figure(presets.common, 3),
    },
  };
}

/** For each program channel the middle of the errors with which the presets reach its mixes. */
function errorsAhead(wanted: Configuration, ahead: Configuration): (channelId: string) => number {
  const [before, after] = [levelsAhead(wanted), levelsAhead(ahead)];
  const own = new Map(
    wanted.channels.map(({ id, levelDb }, index) => [id, ahead.channels[index]!.levelDb - levelDb]),
  );
  return (channelId) => {
    const levels = before.get(channelId) ?? [];
    const errors = levels.map((level, index) => after.get(channelId)![index]! - level);
    if (errors.length === 0) return own.get(channelId) ?? 0;
    return (Math.min(...errors) + Math.max(...errors)) / 2;
  };
}

/** Level of every crossing to a program channel up to its mixes, in the order of the document. */
function levelsAhead(configuration: Configuration): ReadonlyMap<string, readonly number[]> {
  const trims = new Map(
    configuration.sources.flatMap(({ channels }) => channels.map(({ id, gainDb }) => [id, gainDb] as const)),
  );
  return new Map(
    configuration.channels.map(({ id, levelDb }) => [
      id,
      configuration.presets.flatMap((preset) =>
        preset.routing
          .filter(({ channelId }) => channelId === id)
          .map((route) => levelDb + preset.levelDb + route.gainDb + (trims.get(route.sourceChannelId) ?? 0)),
      ),
    ]),
  );
}
