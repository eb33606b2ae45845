import type { Configuration, NumberGrid, Output, Preset } from "../../../model/index.ts";
import { gridRange } from "../../../profile/index.ts";
import type { LevelGrids } from "./level-grids.ts";

/**
 * Moves what a stage cannot hold to the stage beside it, total by total unchanged: a preset's level to its routes and
 * back, a channel's level to the mixes behind it, a mix to the output's gain and back. What still does not fit then is
 * left for the caller to ask about.
 */
export function withinStages(configuration: Configuration, grids: LevelGrids): Configuration {
  let { outputs } = configuration;
  const channels = configuration.channels.map((channel) => {
    const excess = excessOf(grids.channel, channel.levelDb);
    if (excess === 0) return channel;
    outputs = outputs.map((output) => ({
      ...output,
      mix: output.mix.map((part) =>
        part.channelId === channel.id ? { ...part, gainDb: clean(part.gainDb + excess) } : part,
      ),
    }));
    return { ...channel, levelDb: clean(channel.levelDb - excess) };
  });
  return {
    ...configuration,
    channels,
    outputs: outputs.map((output) => outputWithin(output, grids)),
    presets: configuration.presets.map((preset) => presetWithin(preset, grids)),
  };
}

function outputWithin(output: Output, grids: LevelGrids): Output {
  const down = Math.max(0, ...output.mix.map(({ gainDb }) => gainDb - gridRange(grids.mix).max));
  const shifted = shiftOutput(output, down);
  const excess = excessOf(grids.gain, shifted.gainDb);
  if (excess === 0 || shifted.mix.length === 0) return shifted;
  const room =
    excess > 0
      ? Math.min(excess, ...shifted.mix.map(({ gainDb }) => gridRange(grids.mix).max - gainDb))
      : Math.max(excess, ...shifted.mix.map(({ gainDb }) => gridRange(grids.mix).min - gainDb));
  return shiftOutput(shifted, -room);
}

/** Takes an amount out of every mix part and adds it to the gain. */
function shiftOutput(output: Output, amountDb: number): Output {
  if (amountDb === 0) return output;
  return {
    ...output,
    gainDb: clean(output.gainDb + amountDb),
    mix: output.mix.map((part) => ({ ...part, gainDb: clean(part.gainDb - amountDb) })),
  };
}

function presetWithin(preset: Preset, grids: LevelGrids): Preset {
  const shifted = shiftPreset(preset, -excessOf(grids.preset, preset.levelDb));
  const over = Math.max(0, ...shifted.routing.map(({ gainDb }) => gainDb - gridRange(grids.route).max));
  const room = Math.max(0, Math.min(over, gridRange(grids.preset).max - shifted.levelDb));
  return shiftPreset(shifted, room);
}

/** Takes an amount out of every route and adds it to the preset's level. */
function shiftPreset(preset: Preset, amountDb: number): Preset {
  if (amountDb === 0) return preset;
  return {
    ...preset,
    levelDb: clean(preset.levelDb + amountDb),
    routing: preset.routing.map((route) => ({ ...route, gainDb: clean(route.gainDb - amountDb) })),
  };
}

/** Decimals of documents may lie beyond the end of a grid by this much: six decimals of a millisecond. */
const END_TOLERANCE = 1e-6;

/** By how much a value is above the grid (positive) or below it (negative). */
export function excessOf(grid: NumberGrid, value: number): number {
  const { min, max } = gridRange(grid);
  if (value > max + END_TOLERANCE) return value - max;
  return value < min - END_TOLERANCE ? value - min : 0;
}

/** Sums of decimal numbers without the rounding errors of the arithmetic. */
export function clean(value: number): number {
  return Number(value.toPrecision(12));
}
