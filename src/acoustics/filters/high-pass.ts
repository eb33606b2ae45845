import { checkNumber } from "../limits.ts";
import { prewarpedSection } from "../section.ts";
import type { FilterKind, FilterSettings } from "./filter-kind.ts";

/** Settings of a high-pass of second order. */
export interface HighPassSettings extends FilterSettings {
  readonly kind: "high-pass";
  /** Magnitude at the corner, above 0, up to 1000; 0.7071 (−3.01 dB) is a Butterworth response. */
  readonly q: number;
}

/**
 * s²/(s² + s/Q + 1).
 * Source: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), HPF.
 */
export const highPass: FilterKind<HighPassSettings> = {
  kind: "high-pass",
  check({ q }, place) {
    checkNumber("q", q, `${place}/q`);
  },
  sections({ frequencyHz, q }, sampleRateHz) {
    const prototype = { numerator: [0, 0, 1], denominator: [1, 1 / q, 1] } as const;
    return [prewarpedSection(prototype, frequencyHz, sampleRateHz)];
  },
};
