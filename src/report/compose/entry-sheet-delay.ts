import type { DelayAbility } from "../../model/index.ts";
import { printMs, samplesFromMs } from "../../units/index.ts";
import { exactMs } from "./entry-sheet-words.ts";

/** A delay in the numbers that the unit wants, in milliseconds besides where these are samples. */
export function delayWords(delayMs: number, { unit }: DelayAbility, sampleRateHz: number): string {
  if (unit === "ms") return exactMs(delayMs);
  return `${Math.round(samplesFromMs(delayMs, sampleRateHz))} samples (${printMs(delayMs, 3)})`;
}
