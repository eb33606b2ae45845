import type { NumberGrid } from "../../model/index.ts";
import { gridNearest, gridNeighbours, gridRange, gridStep } from "../../profile/index.ts";

/** A share of a step by which values may miss each other through rounding. */
const SLACK = 1e-6;

/**
 * Whether a number read back is what the unit can make of the number that was to be loaded: the unit's value nearest to
 * it must be one of those that enclose the intended number (a unit may round up or down, a display may show fewer
 * decimals). A whole step beside a value that the unit has is a difference, and so is the end of the range in place of a
 * value beyond it.
 */
export function isWithinStep(grid: NumberGrid, intended: number, readBack: number): boolean {
  const { min, max } = gridRange(grid);
  const slack = SLACK * gridStep(grid, intended);
  if (intended < min - slack || intended > max + slack) return false;
  const nearest = gridNearest(grid, readBack);
  if (Math.abs(readBack - nearest) > gridStep(grid, nearest) / 2 + slack) return false;
  const { below = min, above = max } = gridNeighbours(grid, intended);
  return nearest >= below - slack && nearest <= above + slack;
}
