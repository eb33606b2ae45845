import { acousticResponses, equalizationResponse, frequencyGrid } from "../../../acoustics/index.ts";
import type { Configuration, UnitProfile } from "../../../model/index.ts";
import { unitAcoustics } from "../../../profile/index.ts";

const FROM_HZ = 40;
const TO_HZ = 16_000;

/**
 * How far EQ sets of a configuration differ: rms in dB over all its channels from 40 Hz to 16 kHz, every fraction of an
 * octave alike.
 */
export function setDifferences(
  configuration: Configuration,
  profile: UnitProfile,
): (firstId: string, secondId: string) => number {
  const responses = equalizersOf(configuration, profile);
  return (firstId, secondId) => {
    let sum = 0;
    let count = 0;
    for (const { id } of configuration.channels) {
      const first = equalizationResponse(responses, firstId, id)?.magnitudeDb;
      const second = equalizationResponse(responses, secondId, id)?.magnitudeDb;
      first?.forEach((level, k) => {
        sum += (level - (second?.[k] ?? 0)) ** 2;
        count += 1;
      });
    }
    return count === 0 ? 0 : Math.sqrt(sum / count);
  };
}

/**
 * How far the equalizers of two program channels differ, in the EQ set where they do most: rms in dB from 40 Hz to 16 kHz,
 * and the largest difference, what stays against what goes.
 */
export function channelDifferences(
  configuration: Configuration,
  profile: UnitProfile,
  { goneId, staysId }: { readonly goneId: string; readonly staysId: string },
): { readonly rmsDb: number; readonly maxDb: number; readonly maxAtHz: number } {
  const responses = equalizersOf(configuration, profile);
  let worst = { rmsDb: 0, maxDb: 0, maxAtHz: FROM_HZ };
  for (const { id } of configuration.equalizations) {
    const gone = equalizationResponse(responses, id, goneId)!.magnitudeDb;
    const stays = equalizationResponse(responses, id, staysId)!.magnitudeDb;
    const changes = [...stays].map((level, k) => level - gone[k]!);
    const rmsDb = Math.sqrt(changes.reduce((sum, db) => sum + db ** 2, 0) / changes.length);
    if (rmsDb <= worst.rmsDb) continue;
    const at = changes.reduce((most, db, k) => (Math.abs(db) > Math.abs(changes[most]!) ? k : most), 0);
    worst = { rmsDb, maxDb: changes[at]!, maxAtHz: responses.axis.frequenciesHz[at]! };
  }
  return worst;
}

function equalizersOf(configuration: Configuration, profile: UnitProfile) {
  return acousticResponses(
    { ...configuration, presets: [], outputs: [], loudspeakers: [] },
    {
      frequenciesHz: frequencyGrid({ fromHz: FROM_HZ, toHz: TO_HZ, pointsPerOctave: 6 }),
      unit: unitAcoustics(profile, configuration.unit.sampleRateHz),
    },
  );
}
