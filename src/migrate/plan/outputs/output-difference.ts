import { acousticResponses, frequencyGrid } from "../../../acoustics/index.ts";
import type { Configuration, Output, UnitProfile } from "../../../model/index.ts";
import { unitAcoustics } from "../../../profile/index.ts";

const FROM_HZ = 40;
const TO_HZ = 16_000;
const POINTS_PER_OCTAVE = 12;

/** How far the filters of two outputs are apart, from 40 Hz to 16 kHz; gains and delays are not in it. */
export interface OutputDifference {
  readonly rmsDb: number;
  /** The largest: the first output against the second, signed. */
  readonly maxDb: number;
  readonly maxAtHz: number;
}

/** Compares the filters of outputs (high-pass, low-pass, driver EQ, FIR). */
export function outputDifferences(
  configuration: Configuration,
  profile: UnitProfile,
): (first: Output, second: Output) => OutputDifference {
  const frequenciesHz = frequencyGrid({ fromHz: FROM_HZ, toHz: TO_HZ, pointsPerOctave: POINTS_PER_OCTAVE });
  const { outputs } = acousticResponses(
    { ...configuration, presets: [], equalizations: [], loudspeakers: [] },
    { frequenciesHz, unit: unitAcoustics(profile, configuration.unit.sampleRateHz) },
  );
  return (first, second) => {
    const [levels, others] = [first, second].map(({ id }) => outputs.get(id)!.filters.magnitudeDb);
    const changes = [...levels!].map((level, k) => level - others![k]!);
    const rmsDb = Math.sqrt(changes.reduce((sum, db) => sum + db ** 2, 0) / changes.length);
    const at = changes.reduce((most, db, k) => (Math.abs(db) > Math.abs(changes[most]!) ? k : most), 0);
    return { rmsDb, maxDb: changes[at]!, maxAtHz: frequenciesHz[at]! };
  };
}
