import { checkFilterFrequency, invalidSetting, type SettingPlace } from "../limits.ts";
import { prewarpedSection, type Section } from "../section.ts";
import { bessel } from "./bessel.ts";
import { butterworth } from "./butterworth.ts";
import type { BesselNormalization, CrossoverFamily, PrototypeFactor } from "./crossover-family.ts";
import { linkwitzRiley } from "./linkwitz-riley.ts";

/** A family of crossover filters. */
export type CrossoverFamilyName = "butterworth" | "bessel" | "linkwitz-riley";

/** Every family of crossover filters. A new family is a file, a name above and a place here. */
const CROSSOVER_FAMILIES: readonly CrossoverFamily<CrossoverFamilyName>[] = [
  butterworth,
  bessel,
  linkwitzRiley,
];

/** One half of a crossover: the high-pass or the low-pass of an output. */
export interface CrossoverHalf {
  readonly family: CrossoverFamilyName;
  /** 6 dB an octave each. Butterworth 1 to 8, Bessel 2 to 8, Linkwitz-Riley 2, 4, 6, 8. */
  readonly order: number;
  /** Corner in Hz, below half the sample rate. */
  readonly frequencyHz: number;
  /** What the corner means; required for a Bessel filter, refused for the others. */
  readonly normalization?: BesselNormalization | undefined;
}

/** Which half of a crossover. */
export type CrossoverSide = "high-pass" | "low-pass";

/** The name of every family, in the order of the list. */
export const CROSSOVER_FAMILY_NAMES: readonly CrossoverFamilyName[] = CROSSOVER_FAMILIES.map(
  ({ family }) => family,
);

/** The orders that a family offers. */
export function crossoverOrders(name: CrossoverFamilyName): readonly number[] {
  return CROSSOVER_FAMILIES.find(({ family }) => family === name)?.orders ?? [];
}

/**
 * The sections of one half of a crossover at a sample rate: bilinear transform, corner pre-warped. The high-pass is the
 * low-pass prototype with s replaced by 1/s.
 *
 * @param place JSON Pointer of the half, for errors.
 * @throws BoothkeepError `acoustics.invalid-filter`: a family or order that is not offered, a Bessel filter without
 *   normalization, a frequency at or above half the sample rate.
 * @example
 * crossoverSections({ family: "linkwitz-riley", order: 4, frequencyHz: 500 }, "high-pass", 48_000);
 */
export function crossoverSections(
  half: CrossoverHalf,
  side: CrossoverSide,
  sampleRateHz: number,
  place: SettingPlace = "",
): readonly Section[] {
  const family = checkedFamily(half, place);
  checkFilterFrequency(half.frequencyHz, sampleRateHz, `${place}/frequencyHz`);
  return family
    .factors(half.order, half.normalization)
    .map((factor) => prewarpedSection(prototypeOf(factor, side), half.frequencyHz, sampleRateHz));
}

function prototypeOf({ a1, a2 }: PrototypeFactor, side: CrossoverSide) {
  if (side === "low-pass") return { numerator: [1, 0, 0], denominator: [1, a1, a2] } as const;
  return a2 === 0
    ? ({ numerator: [0, 1, 0], denominator: [a1, 1, 0] } as const)
    : ({ numerator: [0, 0, 1], denominator: [a2, a1, 1] } as const);
}

function checkedFamily(half: CrossoverHalf, place: SettingPlace): CrossoverFamily {
  const family: CrossoverFamily | undefined = CROSSOVER_FAMILIES.find((f) => f.family === half.family);
  if (family === undefined) {
    throw invalidSetting(`There is no crossover family '${half.family}'.`, `${place}/family`);
  }
  if (!family.orders.includes(half.order)) {
    throw invalidSetting(
      `${half.family} has the orders ${family.orders.join(", ")}, not ${half.order}.`,
      `${place}/order`,
      { value: half.order, orders: family.orders },
    );
  }
  const { normalization } = half;
  const known = normalization !== undefined && family.normalizations.includes(normalization);
  if (family.normalizations.length > 0 ? !known : normalization !== undefined) {
    throw invalidSetting(
      family.normalizations.length > 0
        ? `${half.family} needs a normalization: ${family.normalizations.join(" or ")}.`
        : `${half.family} takes no normalization.`,
      `${place}/normalization`,
    );
  }
  return family;
}
