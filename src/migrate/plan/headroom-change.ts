import { acousticResponses, frequencyGrid, outputHeadrooms } from "../../acoustics/index.ts";
import type { Configuration, UnitProfile } from "../../model/index.ts";
import { unitAcoustics } from "../../profile/index.ts";
import { figure } from "./figure.ts";
import type { Plan } from "./plan.ts";
import { wordsOf } from "./words.ts";

/** How the headroom at the outputs changes. */
export interface HeadroomChange {
  /** By how much the level rises where it rises most, in dB; negative: it falls everywhere. */
  readonly riseDb: number;
  /** Level there afterwards, in dB: 0 dB is full scale when every source channel is at full scale and in phase. */
  readonly levelDb: number;
  /** Output and preset. */
  readonly words: string;
}

const POINTS_PER_OCTAVE = 6;

/**
 * Where the largest level at an output rises most, all source channels at full scale together (see outputHeadrooms).
 *
 * @returns undefined when no output plays in both configurations
 */
export function headroomChange(
  plan: Plan,
  old: Configuration,
  { from, to }: { readonly from: UnitProfile; readonly to: UnitProfile },
): HeadroomChange | undefined {
  const now = plan.configuration;
  const after = levelsOf(now, to);
  const words = wordsOf(old);
  let worst: HeadroomChange | undefined;
  for (const [key, { presetId, outputId, levelDb }] of levelsOf(old, from)) {
    const level = after.get(key)?.levelDb;
    if (level === undefined || (worst !== undefined && level - levelDb <= worst.riseDb)) continue;
    const output = old.outputs.find(({ id }) => id === outputId)!;
    worst = {
      riseDb: figure(level - levelDb, 2),
      levelDb: figure(level, 2),
      words: `${words.output(output)}, preset '${words.preset(presetId)}'`,
    };
  }
  return worst;
}

function levelsOf(configuration: Configuration, profile: UnitProfile) {
  const rate = configuration.unit.sampleRateHz;
  const frequenciesHz = frequencyGrid({ pointsPerOctave: POINTS_PER_OCTAVE, belowHz: rate / 2 });
  const responses = acousticResponses(configuration, { frequenciesHz, unit: unitAcoustics(profile, rate) });
  return new Map(
    outputHeadrooms(responses).map(({ presetId, outputId, together }) => [
      JSON.stringify([presetId, outputId]),
      { presetId, outputId, levelDb: together.levelDb },
    ]),
  );
}
