import { checkNumber, invalidSetting } from "../limits.ts";
import { prewarpedSection } from "../section.ts";
import type { FilterKind, FilterSettings } from "./filter-kind.ts";

/** Settings of an all-pass. */
export interface AllPassSettings extends FilterSettings {
  readonly kind: "all-pass";
  /** 1: the phase falls from 0° to −180° (−90° at the frequency); 2: from 0° to −360° (−180° at the frequency). */
  readonly order: number;
  /** Only of second order, above 0, up to 1000: higher turns the phase faster. */
  readonly q?: number | undefined;
}

/**
 * Order 1: (1 − s)/(1 + s) (textbook form). Order 2: (s² − s/Q + 1)/(s² + s/Q + 1).
 * Source of order 2: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), APF.
 */
export const allPass: FilterKind<AllPassSettings> = {
  kind: "all-pass",
  check({ order, q }, place) {
    if (order !== 1 && order !== 2) {
      throw invalidSetting(`An all-pass has order 1 or 2, not ${order}.`, `${place}/order`, { value: order });
    }
    if (order === 2) checkNumber("q", q ?? Number.NaN, `${place}/q`);
  },
  sections({ frequencyHz, order, q }, sampleRateHz) {
    const prototype =
      order === 1
        ? ({ numerator: [1, -1, 0], denominator: [1, 1, 0] } as const)
        : ({ numerator: [1, -1 / q!, 1], denominator: [1, 1 / q!, 1] } as const);
    return [prewarpedSection(prototype, frequencyHz, sampleRateHz)];
  },
};
