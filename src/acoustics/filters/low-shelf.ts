import { prewarpedSection } from "../section.ts";
import type { FilterKind } from "./filter-kind.ts";
import { checkShelf, type ShelfSettings, shelfInverseQ } from "./shelf.ts";

/** Settings of a low shelf. */
export interface LowShelfSettings extends ShelfSettings {
  readonly kind: "low-shelf";
}

/**
 * A·(s² + s·√A/Q + A)/(A·s² + s·√A/Q + 1), A = 10^(gain/40).
 * Source: Audio EQ Cookbook (W3C Working Group Note, 8 June 2021), lowShelf.
 */
export const lowShelf: FilterKind<LowShelfSettings> = {
  kind: "low-shelf",
  check: checkShelf,
  sections(settings, sampleRateHz) {
    const a = 10 ** (settings.gainDb / 40);
    const middle = Math.sqrt(a) * shelfInverseQ(settings);
    const prototype = { numerator: [a * a, a * middle, a], denominator: [1, middle, a] } as const;
    return [prewarpedSection(prototype, settings.frequencyHz, sampleRateHz)];
  },
};
