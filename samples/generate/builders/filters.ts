import type { EqBand, PeakingFilter, ShelfFilter } from "../../../src/model/index.ts";

/** A filter before it has its place in a list, and with it its id. */
export type Unplaced = Omit<PeakingFilter, "id"> | Omit<ShelfFilter, "id">;

export function bell(frequencyHz: number, gainDb: number, q: number): Unplaced {
  return { kind: "peaking", frequencyHz, gainDb, q };
}

export function lowShelf(frequencyHz: number, gainDb: number, steepness: Steepness): Unplaced {
  return { kind: "low-shelf", frequencyHz, gainDb, ...steepness };
}

export function highShelf(frequencyHz: number, gainDb: number, steepness: Steepness): Unplaced {
  return { kind: "high-shelf", frequencyHz, gainDb, ...steepness };
}

type Steepness = { readonly q: number } | { readonly slope: number };

/** The same filter bypassed, its values kept for another day. */
export function bypassed(filter: Unplaced): Unplaced {
  return { ...filter, enabled: false };
}

/** Filters in processing order, with the ids b1, b2, ... */
export function placed(filters: readonly Unplaced[]): EqBand[] {
  return filters.map((filter, index) => ({ id: `b${index + 1}`, ...filter }));
}
