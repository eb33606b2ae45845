import type { NumberGrid } from "../../../model/index.ts";
import { gridIndex, gridValue } from "../../../profile/index.ts";

/** A setting that the unit takes, and how far it is from what was wanted. */
export interface Candidate {
  readonly value: number;
  /** Setting minus wanted value. */
  readonly error: number;
}

/** A grid with more settings near a value than this is thinned to the nearest ones. */
const CANDIDATES_MAX = 65;

/**
 * The settings of a grid within `reach` of a wanted value, nearest first; at least the nearest one. A wanted value that
 * is a setting itself keeps its exact number.
 */
export function candidatesNear(
  grid: NumberGrid,
  wanted: number,
  { reach, tolerance = 1e-9 }: { readonly reach: number; readonly tolerance?: number },
): readonly Candidate[] {
  const nearest = gridIndex(grid, wanted);
  const found: Candidate[] = [candidate(grid, nearest, wanted, tolerance)];
  for (const direction of [1, -1]) {
    for (let step = 1; step <= CANDIDATES_MAX / 2; step += 1) {
      const index = nearest + direction * step;
      const next = candidate(grid, index, wanted, tolerance);
      const last = gridValue(grid, index - direction);
      if (gridValue(grid, index) === last || Math.abs(next.error) > reach + tolerance) break;
      found.push(next);
    }
  }
  return found.sort((a, b) => Math.abs(a.error) - Math.abs(b.error) || b.error - a.error);
}

function candidate(grid: NumberGrid, index: number, wanted: number, tolerance: number): Candidate {
  const value = gridValue(grid, index);
  const error = value - wanted;
  return Math.abs(error) <= tolerance ? { value: wanted, error: 0 } : { value, error };
}
