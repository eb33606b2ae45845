import { acousticResponses, equalizationResponse, frequencyGrid } from "../../acoustics/index.ts";
import type { Configuration, UnitProfile } from "../../model/index.ts";
import { unitAcoustics } from "../../profile/index.ts";

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
  const responses = acousticResponses(
    { ...configuration, presets: [], outputs: [], loudspeakers: [] },
    {
      frequenciesHz: frequencyGrid({ fromHz: FROM_HZ, toHz: TO_HZ, pointsPerOctave: 6 }),
      unit: unitAcoustics(profile, configuration.unit.sampleRateHz),
    },
  );
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
