import type { NumberGrid } from "../model/index.ts";
import { gridNeighbours, gridRange, gridStep } from "../profile/index.ts";

/** Displays and files round; that much of a step more never makes a difference. */
const SLACK = 1e-6;

/**
 * Whether a number read back is what the unit can make of the number that was to be loaded: between the two values of
 * the unit that enclose it, or within half a step of it. A whole step beside a value that the unit has is a difference,
 * and so is the end of the range in place of a value beyond it.
 */
export function isWithinStep(grid: NumberGrid, intended: number, readBack: number): boolean {
  const { min, max } = gridRange(grid);
  const slack = SLACK * Math.max(gridStep(grid, intended), Number.MIN_VALUE);
  if (intended < min - slack || intended > max + slack) return false;
  const { below = min, above = max } = gridNeighbours(grid, intended);
  if (readBack >= below - slack && readBack <= above + slack) return true;
  const nearest = Math.abs(readBack - below) < Math.abs(readBack - above) ? below : above;
  const reach = stepTowards(grid, nearest, readBack) / 2;
  return Math.abs(readBack - intended) < reach * (1 - SLACK);
}

/** The step of the grid on the side of a value where another one lies. */
function stepTowards(grid: NumberGrid, from: number, to: number): number {
  const step = gridStep(grid, from);
  const beside = gridNeighbours(grid, from + Math.sign(to - from) * step * SLACK * 10);
  const neighbour = to > from ? beside.above : beside.below;
  return neighbour === undefined ? 0 : Math.abs(neighbour - from);
}
