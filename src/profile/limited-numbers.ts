import type {
  Configuration,
  Crossover,
  EqBand,
  FilterAbility,
  NumberGrid,
  Output,
  Preset,
  UnitProfile,
} from "../model/index.ts";
import { DELAY_TOLERANCE_MS, delayGridMs } from "./delay.ts";
import { faderGrid } from "./fader.ts";
import { GRID_TOLERANCE } from "./number-grid.ts";

/** A number of a configuration that the unit limits, with the values that it takes there. */
export interface LimitedNumber {
  /** Names and indices from the document's root to the number. */
  readonly path: readonly (string | number)[];
  readonly value: number;
  readonly unit: "dB" | "dBFS" | "ms" | "Hz" | "mark" | "";
  /** In the unit of the document: delays in milliseconds. */
  readonly grid: NumberGrid;
  readonly tolerance: number;
}

/**
 * Every number of a configuration that the profile limits, in the order of the document. Numbers at places that the
 * unit does not have (a graphic EQ on a unit without one) are left out: another rule tells about the place.
 */
export function limitedNumbers(configuration: Configuration, profile: UnitProfile): LimitedNumber[] {
  const found: LimitedNumber[] = [];
  const rate = configuration.unit.sampleRateHz;
  const add: Add = (path, value, unit, grid) => {
    if (value === undefined || grid === undefined) return;
    found.push({ path, value, unit, grid, tolerance: unit === "ms" ? DELAY_TOLERANCE_MS : GRID_TOLERANCE });
  };
  const channelDelay = delayGridMs(profile.channels.delay, rate);
  const fader = faderGrid(profile.fader);

  configuration.sources.forEach((source, i) => {
    source.channels.forEach((channel, j) => {
      add(["sources", i, "channels", j, "gainDb"], channel.gainDb, "dB", profile.sources.gainDb);
    });
  });
  configuration.channels.forEach((channel, i) => {
    add(["channels", i, "levelDb"], channel.levelDb, "dB", profile.channels.levelDb);
    add(["channels", i, "delayMs"], channel.delayMs, "ms", channelDelay);
  });
  addEqualizations(configuration, profile, add);
  addPresets(configuration.presets, profile, { rate, fader, add });
  addOutputs(configuration.outputs, profile, { rate, add });
  add(["operation", "faderMark"], configuration.operation.faderMark, "mark", fader);
  configuration.automation.forEach(({ action }, i) => {
    if (action.kind === "set-fader")
      add(["automation", i, "action", "faderMark"], action.faderMark, "mark", fader);
  });
  return found;
}

type Add = (
  path: readonly (string | number)[],
  value: number | undefined,
  unit: LimitedNumber["unit"],
  grid: NumberGrid | undefined,
) => void;

function addEqualizations(configuration: Configuration, profile: UnitProfile, add: Add): void {
  const { graphic, parametric } = profile.equalizations;
  configuration.equalizations.forEach((set, i) => {
    set.channels.forEach((channel, j) => {
      const at = ["equalizations", i, "channels", j];
      if (channel.graphic !== undefined && channel.graphic.layout === graphic?.layout) {
        channel.graphic.gainsDb.forEach((gain, k) => {
          add([...at, "graphic", "gainsDb", k], gain, "dB", graphic.gainDb);
        });
      }
      addFilters(channel.parametric ?? [], parametric, [...at, "parametric"], add);
    });
  });
}

function addFilters(
  bands: readonly EqBand[],
  ability: FilterAbility | undefined,
  at: readonly (string | number)[],
  add: Add,
): void {
  if (ability === undefined) return;
  bands.forEach((band, i) => {
    add([...at, i, "frequencyHz"], band.frequencyHz, "Hz", ability.frequencyHz);
    if ("gainDb" in band) add([...at, i, "gainDb"], band.gainDb, "dB", ability.gainDb);
    if ("q" in band) add([...at, i, "q"], band.q, "", ability.q);
    if ("slope" in band) add([...at, i, "slope"], band.slope, "", ability.slope);
  });
}

function addPresets(
  presets: readonly Preset[],
  profile: UnitProfile,
  { rate, fader, add }: { readonly rate: number; readonly fader: NumberGrid; readonly add: Add },
): void {
  const delay = delayGridMs(profile.presets.delay, rate);
  presets.forEach((preset, i) => {
    const at = ["presets", i];
    add([...at, "levelDb"], preset.levelDb, "dB", profile.presets.levelDb);
    add([...at, "delayMs"], preset.delayMs, "ms", delay);
    add([...at, "faderMark"], preset.faderMark, "mark", fader);
    preset.routing.forEach((route, j) => {
      add([...at, "routing", j, "gainDb"], route.gainDb, "dB", profile.presets.routingGainDb);
    });
  });
}

function addOutputs(
  outputs: readonly Output[],
  profile: UnitProfile,
  { rate, add }: { readonly rate: number; readonly add: Add },
): void {
  const ability = profile.outputs;
  const delay = delayGridMs(ability.delay, rate);
  outputs.forEach((output, i) => {
    const at = ["outputs", i];
    output.mix.forEach((part, j) => {
      add([...at, "mix", j, "gainDb"], part.gainDb, "dB", ability.mixGainDb);
    });
    addCorner(output.highPass, ability.highPass.frequencyHz, [...at, "highPass"], add);
    addCorner(output.lowPass, ability.lowPass.frequencyHz, [...at, "lowPass"], add);
    addFilters(output.filters, ability.filters, [...at, "filters"], add);
    add([...at, "gainDb"], output.gainDb, "dB", ability.gainDb);
    add([...at, "delayMs"], output.delayMs, "ms", delay);
    const { limiter } = output;
    if (limiter === undefined) return;
    add([...at, "limiter", "thresholdDbfs"], limiter.thresholdDbfs, "dBFS", ability.limiter?.thresholdDbfs);
    add([...at, "limiter", "attackMs"], limiter.attackMs, "ms", ability.limiter?.attackMs);
    add([...at, "limiter", "releaseMs"], limiter.releaseMs, "ms", ability.limiter?.releaseMs);
  });
}

function addCorner(
  crossover: Crossover | undefined,
  grid: NumberGrid,
  at: readonly (string | number)[],
  add: Add,
): void {
  add([...at, "frequencyHz"], crossover?.frequencyHz, "Hz", grid);
}
