import { nominalThirdOctaveHz, thirdOctaveBands } from "../../../src/acoustics/index.ts";
import { csvText } from "../../../src/base/text/index.ts";
import { dbFromPower, powerFromDb } from "../../../src/base/units/index.ts";
import { chanceFor, unevenness } from "../builders/chance.ts";
import { lanternMill1 } from "../screens/lantern-mill-1.ts";

/** Channels that were measured again. */
const CHANNELS = ["L", "C", "R"] as const;

/** Level of one third octave of pink noise at 85 dBC, roughly, in dB SPL. */
const BAND_LEVEL_DB = 71;

/**
 * What an analyzer wrote at the five microphone positions of Lantern Mill 1: third octaves from 31.5 Hz to 20 kHz whose
 * power average is what the calibration holds, to the tenth of a dB that an analyzer prints.
 */
export function lanternMill1Measured(): string {
  const { calibration } = lanternMill1();
  const positions = calibration!.microphonePositions.map(({ id }) => id);
  const columns = CHANNELS.flatMap((channelId) => {
    const held = calibration!.channels.find((channel) => channel.channelId === channelId)!;
    // The bands outside what a calibration holds go on as those at its ends.
    const levels = [
      held.thirdOctavesDb!.at(0)! - 2,
      ...held.thirdOctavesDb!,
      held.thirdOctavesDb!.at(-1)! - 4,
    ];
    const apart = positions.map((id) =>
      unevenness(chanceFor(`lantern-mill/screen-1/${channelId}/${id}/heard`), levels.length, 1),
    );
    const common = levels.map((_, band) =>
      dbFromPower(apart.reduce((sum, one) => sum + powerFromDb(one[band]!), 0) / apart.length),
    );
    return positions.map((id, k) => ({
      heading: `${channelId} at ${id} (dB)`,
      levelDbC: held.levelDbC,
      levels: levels.map((levelDb, band) =>
        tenths(BAND_LEVEL_DB + levelDb + apart[k]![band]! - common[band]!),
      ),
    }));
  });
  const bands = thirdOctaveBands(31.5, 20_000);
  return csvText([
    ["Frequency (Hz)", ...columns.map(({ heading }) => heading)],
    ...bands.map(({ index }, row) => [
      nominalThirdOctaveHz(index),
      ...columns.map(({ levels }) => levels[row]),
    ]),
    ["Measured level (dB SPL)", ...columns.map(({ levelDbC }) => levelDbC)],
  ]);
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}
