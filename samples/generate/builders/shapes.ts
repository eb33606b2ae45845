import { nominalThirdOctaveHz, thirdOctaveBands } from "../../../src/acoustics/index.ts";

/** Nominal mid-bands of the 27 third octaves from 40 Hz to 16 kHz (ISO 266). */
export const THIRD_OCTAVES_HZ: readonly number[] = thirdOctaveBands(40, 16000).map(({ index }) =>
  nominalThirdOctaveHz(index),
);

/** A curve in dB over frequency by a few corner points; straight lines over the logarithm of frequency between them. */
export type Shape = readonly (readonly [frequencyHz: number, levelDb: number])[];

/** What rooms and perforated screens commonly ask of an equalizer (no source): less build-up below 250 Hz, more treble. */
export const EQ_SHAPES = {
  screen: [
    [40, 0.5],
    [63, -1.5],
    [100, -3],
    [160, -2],
    [315, -0.5],
    [1000, 0],
    [2500, 0.5],
    [5000, 1.5],
    [12500, 3],
    [16000, 2.5],
  ],
  surround: [
    [40, 0],
    [80, -0.5],
    [160, -2.5],
    [315, -1.5],
    [800, 0],
    [3150, 0.5],
    [8000, 1.5],
    [16000, 2],
  ],
  lfe: [
    [40, 1],
    [63, -2],
    [100, -0.5],
    [125, 0],
    [16000, 0],
  ],
  headset: [
    [40, -6],
    [125, -3],
    [250, 0],
    [1600, 0.5],
    [3150, 2],
    [8000, 0],
    [16000, -3],
  ],
} as const satisfies Record<string, Shape>;

/** What an EQ set adds to the alignment for its purpose. */
export const PURPOSE_SHAPES = {
  feature: [[1000, 0]],
  event: [
    [40, 1],
    [125, 0],
    [3150, 0],
    [8000, 1.5],
    [16000, 2],
  ],
  speech: [
    [40, -6],
    [160, -2.5],
    [400, 0],
    [2500, 1],
    [4000, 1],
    [10000, -1],
  ],
  /** Old optical sound wants less of both ends (common practice, no source). */
  archive: [
    [40, -6],
    [100, -2],
    [200, 0],
    [1600, 0],
    [4000, -4],
    [8000, -7],
    [16000, -7],
  ],
} as const satisfies Record<string, Shape>;

/** Level in dB of a shape at a frequency; beyond the ends it stays level. */
export function levelAt(shape: Shape, frequencyHz: number): number {
  const above = shape.findIndex(([corner]) => corner >= frequencyHz);
  if (above === 0) return shape[0]![1];
  if (above < 0) return shape.at(-1)![1];
  const [lowHz, lowDb] = shape[above - 1]!;
  const [highHz, highDb] = shape[above]!;
  return lowDb + ((highDb - lowDb) * Math.log(frequencyHz / lowHz)) / Math.log(highHz / lowHz);
}
