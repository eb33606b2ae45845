import type { Configuration, NumberGrid, UnitProfile } from "../../../model/index.ts";
import { gridStep } from "../../../profile/index.ts";

/** Grids of the level stages. */
export interface LevelGrids {
  readonly trim: NumberGrid;
  readonly route: NumberGrid;
  readonly preset: NumberGrid;
  readonly channel: NumberGrid;
  readonly mix: NumberGrid;
  readonly gain: NumberGrid;
}

export function levelGrids(to: UnitProfile): LevelGrids {
  return {
    trim: to.sources.gainDb,
    route: to.presets.routingGainDb,
    preset: to.presets.levelDb,
    channel: to.channels.levelDb,
    mix: to.outputs.mixGainDb,
    gain: to.outputs.gainDb,
  };
}

/** The widest step of any stage: errors up to it may have to be taken up by another stage. */
export function coarsestStep(next: Configuration, grids: LevelGrids): number {
  return Math.max(
    gridStep(grids.preset, 0),
    gridStep(grids.channel, 0),
    gridStep(grids.route, 0),
    gridStep(grids.mix, 0),
    ...next.outputs.map(({ gainDb }) => gridStep(grids.gain, gainDb)),
  );
}
