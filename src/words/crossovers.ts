import type { Crossover } from "../model/index.ts";
import { printHz, printHzToKeyIn } from "./numbers.ts";

/** Names of the families, after those who described them. */
const FAMILY_NAMES: Readonly<Record<Crossover["family"], string>> = {
  butterworth: "Butterworth",
  bessel: "Bessel",
  "linkwitz-riley": "Linkwitz-Riley",
};

/** Each order adds 6 dB per octave far from the corner. */
function slopeDb({ order }: Crossover): number {
  return 6 * order;
}

/** In a comparison: "1.6 kHz, Bessel (phase normalized), 24 dB/octave", "none". */
export function crossoverInComparison(half: Crossover | undefined): string {
  if (half === undefined) return "none";
  const normalization = half.normalization === undefined ? "" : ` (${half.normalization} normalized)`;
  return `${printHz(half.frequencyHz)}, ${FAMILY_NAMES[half.family]}${normalization}, ${slopeDb(half)} dB/octave`;
}

/**
 * On an entry sheet, in the order in which it is keyed in: "Bessel (phase), 24 dB/oct, 1.6 kHz", "off".
 *
 * @param hz how its corner is printed
 */
export function crossoverToKeyIn(
  half: Crossover | undefined,
  hz: (crossover: Crossover) => string = ({ frequencyHz }) => printHzToKeyIn(frequencyHz),
): string {
  if (half === undefined) return "off";
  const normalization = half.normalization === undefined ? "" : ` (${half.normalization})`;
  return `${FAMILY_NAMES[half.family]}${normalization}, ${slopeDb(half)} dB/oct, ${hz(half)}`;
}

/** In a plan: "Bessel of order 4 at 1.6 kHz". */
export function crossoverInPlan({ family, order, frequencyHz }: Crossover): string {
  return `${FAMILY_NAMES[family]} of order ${order} at ${printHz(frequencyHz)}`;
}

/** In a finding of the rule book: "bessel 24 dB per octave at 1.6 kHz". */
export function crossoverInRule(half: Crossover): string {
  return `${half.family} ${slopeDb(half)} dB per octave at ${printHz(half.frequencyHz)}`;
}

/** What a pair of filters lets pass: "90 Hz to 1.6 kHz", "above 90 Hz", "below 90 Hz", "everything". */
export function passBand({
  highPass,
  lowPass,
}: {
  readonly highPass?: Crossover;
  readonly lowPass?: Crossover;
}): string {
  if (highPass !== undefined && lowPass !== undefined) {
    return `${printHz(highPass.frequencyHz)} to ${printHz(lowPass.frequencyHz)}`;
  }
  if (highPass !== undefined) return `above ${printHz(highPass.frequencyHz)}`;
  return lowPass === undefined ? "everything" : `below ${printHz(lowPass.frequencyHz)}`;
}
