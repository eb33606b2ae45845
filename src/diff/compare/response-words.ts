import { printDb, printDbChange, printHz } from "../../base/units/index.ts";
import type { ResponseEffect } from "../../model/index.ts";

/** "+2.5 dB at 2.5 kHz, 0.6 dB rms, C-weighted level +0.4 dB" */
export function responseWords({ maxDb, atHz, rmsDb, levelDbC }: ResponseEffect): string {
  return `${printDbChange(maxDb)} at ${printHz(roundedHz(atHz))}, ${printDb(rmsDb)} rms, C-weighted level ${printDbChange(levelDbC)}`;
}

/** Two significant digits: a peak of a smooth curve is nowhere sharper. */
function roundedHz(frequencyHz: number): number {
  return Number(frequencyHz.toPrecision(2));
}
