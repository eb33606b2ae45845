import type { ComparisonTolerances, ResponseEffect } from "../../model/index.ts";
import { printDb, printDbChange, printHz } from "../../words/index.ts";

/**
 * "+2.5 dB at 2.5 kHz, 0.6 dB rms, C-weighted level +0.4 dB"; where the phase alone differs "phase by up to 120°, at 630 Hz,
 * levels as before".
 */
export function responseWords(effect: ResponseEffect): string {
  const { maxDb, atHz, rmsDb, levelDbC, phaseDeg, phaseAtHz } = effect;
  if (phaseDeg !== undefined) {
    return `phase by up to ${Math.round(phaseDeg)}°, at ${printHz(roundedHz(phaseAtHz ?? 0))}, levels as before`;
  }
  return `${printDbChange(maxDb)} at ${printHz(roundedHz(atHz))}, ${printDb(rmsDb)} rms, C-weighted level ${printDbChange(levelDbC)}`;
}

/** Whether levels differ by less than the tolerance, and the phase not at all. */
export function isQuietEffect(
  { maxDb, phaseDeg }: ResponseEffect,
  { responseDb }: ComparisonTolerances,
): boolean {
  return Math.abs(maxDb) <= responseDb && phaseDeg === undefined;
}

/** Two significant digits: a peak of a smooth curve is nowhere sharper. */
function roundedHz(frequencyHz: number): number {
  return Number(frequencyHz.toPrecision(2));
}
