import type { ListGrid, LogGrid, NumberGrid, StepGrid } from "../model/index.ts";

/**
 * How far a value may lie from a grid value and still count as that value: 1e-9, absolute below 1 and relative above.
 * It absorbs what decimal text and doubles do to a value, and nothing that a person could set.
 */
export const GRID_TOLERANCE = 1e-9;

/** The two grid values that enclose a value. Both are the value itself when it lies on the grid. */
export interface GridNeighbours {
  /** Largest grid value at or below; undefined below the grid. */
  readonly below: number | undefined;
  /** Smallest grid value at or above; undefined above the grid. */
  readonly above: number | undefined;
}

/** Smallest and largest value of a grid. */
export function gridRange(grid: NumberGrid): { readonly min: number; readonly max: number } {
  const count = gridCount(grid);
  return { min: gridValue(grid, 0), max: gridValue(grid, count - 1) };
}

/** How many values a grid has. */
export function gridCount(grid: NumberGrid): number {
  switch (grid.kind) {
    case "step":
      return Math.max(1, Math.floor((grid.max - grid.min) / grid.step + INDEX_SLACK) + 1);
    case "list":
      return grid.values.length;
    case "log": {
      const { first, last } = logSpan(grid);
      return Math.max(1, last - first + 1);
    }
  }
}

/**
 * The value at an index from 0, ascending; an index outside ends at the grid's ends. Rounding errors of the
 * arithmetic are taken off: twelve significant digits are kept.
 */
export function gridValue(grid: NumberGrid, index: number): number {
  return twelveDigits(unroundedValue(grid, Math.min(Math.max(index, 0), gridCount(grid) - 1)));
}

/** Index from 0 of the grid value nearest to a value: nearest in ratio on a log grid; halfway goes up. */
export function gridIndex(grid: NumberGrid, value: number): number {
  const position = Math.floor(gridPosition(grid, value) + 0.5);
  return Math.min(Math.max(position, 0), gridCount(grid) - 1);
}

/**
 * The grid value nearest to a value (in ratio on a log grid); values outside end at the grid's ends.
 *
 * @example
 * gridNearest({ kind: "step", min: -12, max: 12, step: 0.5 }, 0.26); // 0.5
 */
export function gridNearest(grid: NumberGrid, value: number): number {
  return gridValue(grid, gridIndex(grid, value));
}

/** Whether a value is a value of the grid, within a tolerance that is absolute below 1 and relative above. */
export function gridContains(grid: NumberGrid, value: number, tolerance = GRID_TOLERANCE): boolean {
  const nearest = unroundedValue(grid, gridIndex(grid, value));
  return Math.abs(nearest - value) <= tolerance * Math.max(1, Math.abs(value));
}

/** The grid values next to a value on both sides. */
export function gridNeighbours(grid: NumberGrid, value: number): GridNeighbours {
  const index = gridIndex(grid, value);
  const nearest = gridValue(grid, index);
  if (gridContains(grid, value)) return { below: nearest, above: nearest };
  if (nearest < value) {
    return { below: nearest, above: index + 1 < gridCount(grid) ? gridValue(grid, index + 1) : undefined };
  }
  return { below: index > 0 ? gridValue(grid, index - 1) : undefined, above: nearest };
}

/** The distance between the grid values around a value (on the grid: the wider of the two beside it); 0 if it has one value. */
export function gridStep(grid: NumberGrid, value: number): number {
  const index = gridIndex(grid, value);
  const here = gridValue(grid, index);
  return Math.max(gridValue(grid, index + 1) - here, here - gridValue(grid, index - 1));
}

/** A share of a step by which a count of steps may fall short through rounding. */
const INDEX_SLACK = 1e-6;

function unroundedValue(grid: NumberGrid, index: number): number {
  switch (grid.kind) {
    case "step":
      return grid.min + index * grid.step;
    case "list":
      return grid.values[index]!;
    case "log":
      return grid.referenceHz * 2 ** ((logSpan(grid).first + index) / grid.perOctave);
  }
}

/** Where a value lies between the indices of a grid, as a real number; may be outside. */
function gridPosition(grid: NumberGrid, value: number): number {
  switch (grid.kind) {
    case "step":
      return stepPosition(grid, value);
    case "list":
      return listPosition(grid, value);
    case "log":
      return value > 0 ? grid.perOctave * Math.log2(value / grid.referenceHz) - logSpan(grid).first : -1;
  }
}

function stepPosition(grid: StepGrid, value: number): number {
  return (value - grid.min) / grid.step;
}

function listPosition({ values }: ListGrid, value: number): number {
  let low = 0;
  let high = values.length - 1;
  if (value <= values[low]!) return low;
  if (value >= values[high]!) return high;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle]! <= value) low = middle;
    else high = middle;
  }
  return low + (value - values[low]!) / (values[high]! - values[low]!);
}

function logSpan(grid: LogGrid): { readonly first: number; readonly last: number } {
  return {
    first: Math.ceil(grid.perOctave * Math.log2(grid.min / grid.referenceHz) - INDEX_SLACK),
    last: Math.floor(grid.perOctave * Math.log2(grid.max / grid.referenceHz) + INDEX_SLACK),
  };
}

function twelveDigits(value: number): number {
  if (Number.isInteger(value)) return value;
  return Number(value.toPrecision(12));
}
