import { checkNumber } from "../limits.ts";
import { prewarpedSection } from "../section.ts";
import type { FilterKind, FilterSettings } from "./filter-kind.ts";

/** Settings of a notch. */
export interface NotchSettings extends FilterSettings {
  readonly kind: "notch";
  /** Center frequency over bandwidth (between the −3.01 dB points), above 0, up to 1000. */
  readonly q: number;
}

/**
 * (s² + 1)/(s² + s/Q + 1): no signal at the center.
 * Source: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), notch.
 */
export const notch: FilterKind<NotchSettings> = {
  kind: "notch",
  check({ q }, place) {
    checkNumber("q", q, `${place}/q`);
  },
  sections({ frequencyHz, q }, sampleRateHz) {
    const prototype = { numerator: [1, 0, 1], denominator: [1, 1 / q, 1] } as const;
    return [prewarpedSection(prototype, frequencyHz, sampleRateHz)];
  },
};
