import type { FilterResponse } from "../acoustics/index.ts";

/** What became of a filter: after against before, one value a frequency. */
export interface FilterDifference {
  /** Change of level in dB. */
  readonly db: Float64Array;
  /** Change of phase in radians, in [−π, π]. */
  readonly phaseRad: Float64Array;
  /** Whether the filters are alike as far as numbers go. */
  readonly isNone: boolean;
}

/**
 * Levels below this count as this, relative to a filter that passes unchanged: whether a notch is 80 or 100 dB deep at
 * its very center is no difference in a room.
 */
const FLOOR_DB = -60;

/** Rounding of the arithmetic. */
const NONE_DB = 1e-9;

/** Compares filters, each pair once. */
export function filterDifferences(): (before: FilterResponse, after: FilterResponse) => FilterDifference {
  const known = new Map<FilterResponse, Map<FilterResponse, FilterDifference>>();
  return (before, after) => {
    const partners = known.get(before) ?? new Map<FilterResponse, FilterDifference>();
    known.set(before, partners);
    const difference = partners.get(after) ?? differenceOf(before, after);
    partners.set(after, difference);
    return difference;
  };
}

function differenceOf(before: FilterResponse, after: FilterResponse): FilterDifference {
  const points = before.re.length;
  const db = new Float64Array(points);
  const phaseRad = new Float64Array(points);
  for (let k = 0; k < points; k++) {
    db[k] = flooredDb(after.magnitudeDb[k]!) - flooredDb(before.magnitudeDb[k]!);
    const re = after.re[k]! * before.re[k]! + after.im[k]! * before.im[k]!;
    const im = after.im[k]! * before.re[k]! - after.re[k]! * before.im[k]!;
    phaseRad[k] = Math.atan2(im, re);
  }
  return { db, phaseRad, isNone: db.every((change) => Math.abs(change) < NONE_DB) };
}

/** The level of a filter, not below the floor. */
export function flooredDb(db: number): number {
  return Math.max(FLOOR_DB, db);
}
