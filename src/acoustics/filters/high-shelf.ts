import { prewarpedSection } from "../section.ts";
import type { FilterKind } from "./filter-kind.ts";
import { checkShelf, type ShelfSettings, shelfInverseQ } from "./shelf.ts";

/** Settings of a high shelf. */
export interface HighShelfSettings extends ShelfSettings {
  readonly kind: "high-shelf";
}

/**
 * A·(A·s² + s·√A/Q + 1)/(s² + s·√A/Q + A), A = 10^(gain/40).
 * Source: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), highShelf.
 */
export const highShelf: FilterKind<HighShelfSettings> = {
  kind: "high-shelf",
  check: checkShelf,
  sections(settings, sampleRateHz) {
    const a = 10 ** (settings.gainDb / 40);
    const middle = Math.sqrt(a) * shelfInverseQ(settings);
    const prototype = { numerator: [a, a * middle, a * a], denominator: [a, middle, 1] } as const;
    return [prewarpedSection(prototype, settings.frequencyHz, sampleRateHz)];
  },
};
