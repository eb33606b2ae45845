import { checkNumber } from "../limits.ts";
import { prewarpedSection } from "../section.ts";
import type { FilterKind, FilterSettings } from "./filter-kind.ts";

/** Settings of a band-pass. */
export interface BandPassSettings extends FilterSettings {
  readonly kind: "band-pass";
  /** Center frequency over bandwidth (between the −3.01 dB points), above 0, up to 1000. */
  readonly q: number;
}

/**
 * (s/Q)/(s² + s/Q + 1): 0 dB at the center.
 * Source: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), BPF (constant 0 dB peak gain).
 */
export const bandPass: FilterKind<BandPassSettings> = {
  kind: "band-pass",
  check({ q }, place) {
    checkNumber("q", q, `${place}/q`);
  },
  sections({ frequencyHz, q }, sampleRateHz) {
    const prototype = { numerator: [0, 1 / q, 0], denominator: [1, 1 / q, 1] } as const;
    return [prewarpedSection(prototype, frequencyHz, sampleRateHz)];
  },
};
