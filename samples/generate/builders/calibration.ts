import { xCurveDb } from "../../../src/acoustics/index.ts";
import type { ChannelCalibration, ChannelLabel } from "../../../src/model/index.ts";
import { chanceFor, unevenness } from "./chance.ts";
import { THIRD_OCTAVES_HZ } from "./shapes.ts";

const SCREEN_CHANNELS: readonly ChannelLabel[] = ["L", "R", "C", "Lc", "Rc"];

/**
 * What a careful alignment measures: 85 dBC for each screen channel, 82 dBC for each surround, LFE 10 dB up in band
 * (SMPTE RP 200), third octaves within about 2 dB of the X-curve (SMPTE ST 202).
 */
export function calibrated(room: string, channels: readonly ChannelLabel[]): ChannelCalibration[] {
  return channels
    .filter((label) => label !== "HI" && label !== "VIN")
    .map((label) => calibratedChannel(room, label));
}

function calibratedChannel(room: string, label: ChannelLabel): ChannelCalibration {
  const random = chanceFor(`${room}/${label}/measured`);
  const error = (random() - 0.5) * 0.6;
  // Ideal pink noise of 20 to 120 Hz, 10 dB up, reads 3.6 dB more than a screen channel on a C-weighted meter.
  if (label === "LFE")
    return { channelId: label, levelDbC: tenths(88.6 + error), inBandGainDb: tenths(10 + error) };
  const level = SCREEN_CHANNELS.includes(label) ? 85 : 82;
  const uneven = unevenness(random, THIRD_OCTAVES_HZ.length, 0.6);
  const raw = THIRD_OCTAVES_HZ.map((frequencyHz, band) => xCurveDb(frequencyHz) + clipped(uneven[band]!, 2));
  const reference = mean(raw.filter((_, band) => within(THIRD_OCTAVES_HZ[band]!, 500, 2000)));
  return {
    channelId: label,
    levelDbC: tenths(level + error),
    thirdOctavesDb: raw.map((levelDb) => tenths(levelDb - reference)),
  };
}

function within(value: number, low: number, high: number): boolean {
  return value >= low && value <= high;
}

function clipped(value: number, most: number): number {
  return Math.max(-most, Math.min(most, value));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** One decimal, as a meter shows it, without a negative zero. */
function tenths(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}
