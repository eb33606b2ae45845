import { checkNumber } from "../limits.ts";
import { prewarpedSection } from "../section.ts";
import type { FilterKind, FilterSettings } from "./filter-kind.ts";

/** Settings of a peaking filter. */
export interface PeakingSettings extends FilterSettings {
  readonly kind: "peaking";
  /** Gain at the center in dB, −60 to 60. */
  readonly gainDb: number;
  /** The Cookbook's Q, above 0, up to 1000: boost and cut of the same gain and Q cancel. */
  readonly q: number;
}

/**
 * (s² + s·A/Q + 1)/(s² + s/(A·Q) + 1), A = 10^(gain/40).
 * Source: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), peakingEQ.
 */
export const peaking: FilterKind<PeakingSettings> = {
  kind: "peaking",
  check({ gainDb, q }, place) {
    checkNumber("gainDb", gainDb, `${place}/gainDb`);
    checkNumber("q", q, `${place}/q`);
  },
  sections({ frequencyHz, gainDb, q }, sampleRateHz) {
    const a = 10 ** (gainDb / 40);
    const prototype = { numerator: [1, a / q, 1], denominator: [1, 1 / (a * q), 1] } as const;
    return [prewarpedSection(prototype, frequencyHz, sampleRateHz)];
  },
};
