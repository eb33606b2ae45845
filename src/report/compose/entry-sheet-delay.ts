import type { DelayAbility } from "../../model/index.ts";
import { printMs, samplesFromMs } from "../../units/index.ts";

/** A delay in the numbers that the unit wants, in milliseconds besides where these are samples. */
export function delayWords(delayMs: number, { unit }: DelayAbility, sampleRateHz: number): string {
  if (unit === "ms") return printMs(delayMs, 3);
  return `${Math.round(samplesFromMs(delayMs, sampleRateHz))} samples (${printMs(delayMs, 3)})`;
}
