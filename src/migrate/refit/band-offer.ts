import type { FilterAbility } from "../../model/index.ts";
import { gridRange } from "../../profile/index.ts";
import { type ParameterGrid, parameterGrid } from "./parameter-grid.ts";
import type { SectionBox } from "./section-fit.ts";
import type { Section, SectionKind } from "./section-response.ts";

/** A kind of section that a parametric equalizer offers for each of its bands. */
export interface OfferedKind {
  readonly kind: SectionKind;
  readonly bySlope: boolean;
  readonly frequency: ParameterGrid;
  readonly gain: ParameterGrid;
  readonly shape: ParameterGrid;
  readonly box: SectionBox;
}

/** What a parametric equalizer offers to a fit: at least one kind. */
export type BandOffer = readonly OfferedKind[];

const FITTED_KINDS: readonly SectionKind[] = ["peaking", "low-shelf", "high-shelf"];

/** A center or corner may go this close to half the sample rate, as a part of it. */
const HIGHEST_PART_OF_NYQUIST = 0.98;

/** Slopes are held where 1/Q² keeps above this, away from shelves that cannot be computed. */
const LEAST_INVERSE_Q_SQUARED = 0.1;

/**
 * The kinds of an ability that a fit can use (peaking and shelves), with their values.
 *
 * @param highestGainDb boosts beyond are not used
 * @param highestQ narrower filters are not used, unless the unit has no wider ones
 */
export function bandOffer(
  ability: FilterAbility,
  sampleRateHz: number,
  { highestGainDb, highestQ }: { readonly highestGainDb: number; readonly highestQ: number },
): BandOffer {
  const frequency = parameterGrid(ability.frequencyHz, {
    logarithmic: true,
    atMost: (HIGHEST_PART_OF_NYQUIST * sampleRateHz) / 2,
  });
  const gain = parameterGrid(ability.gainDb, { logarithmic: false, atMost: highestGainDb });
  const byQ = parameterGrid(ability.q, {
    logarithmic: true,
    atMost: Math.max(highestQ, gridRange(ability.q).min),
  });
  return FITTED_KINDS.filter((kind) => ability.kinds.includes(kind)).map((kind) => {
    const bySlope = kind !== "peaking" && ability.shelfBy === "slope" && ability.slope !== undefined;
    const shape = bySlope
      ? parameterGrid(ability.slope, { logarithmic: true, atMost: steepestSlope(gain) })
      : byQ;
    const box = { lnF: limits(frequency), gainDb: limits(gain), lnShape: limits(shape) };
    return { kind, bySlope, frequency, gain, shape, box };
  });
}

function limits(grid: ParameterGrid): [number, number] {
  return [grid.parameter(grid.first), grid.parameter(grid.last)];
}

/** The slope S at which 1/Q² = (A + 1/A)(1/S − 1) + 2 falls to its least useful value at the largest gain. */
function steepestSlope(gain: ParameterGrid): number {
  const largestDb = Math.max(Math.abs(gain.parameter(gain.first)), Math.abs(gain.parameter(gain.last)));
  const A = 10 ** (largestDb / 40);
  return 1 / (1 - (2 - LEAST_INVERSE_Q_SQUARED) / (A + 1 / A));
}

/** The offered kind that a section is of. */
export function offeredKind(offer: BandOffer, { kind }: Section): OfferedKind {
  return offer.find((offered) => offered.kind === kind)!;
}

export function boxesOf(offer: BandOffer, sections: readonly Section[]): readonly SectionBox[] {
  return sections.map((section) => offeredKind(offer, section).box);
}

/** The section moved into its box. */
export function insideBox(section: Section, box: SectionBox): Section {
  return {
    ...section,
    lnF: clamp(section.lnF, box.lnF),
    gainDb: clamp(section.gainDb, box.gainDb),
    lnShape: clamp(section.lnShape, box.lnShape),
  };
}

function clamp(value: number, [low, high]: readonly [number, number]): number {
  return Math.min(Math.max(value, low), high);
}
