import type { NumberGrid } from "../../model/index.ts";
import { gridCount, gridIndex, gridValue } from "../../profile/index.ts";

/** A unit's values of one number, seen in the scale that a fit works in (dB, or the natural logarithm). */
export interface ParameterGrid {
  /** First and last index that may be used. */
  readonly first: number;
  readonly last: number;
  /** The fit's parameter at an index. */
  readonly parameter: (index: number) => number;
  /** The unit's value at an index. */
  readonly value: (index: number) => number;
  /** The usable index nearest to a parameter, in the fit's scale. */
  readonly nearest: (parameter: number) => number;
}

export interface ParameterGridOptions {
  readonly logarithmic: boolean;
  /** Values beyond are not used (one value always remains). */
  readonly atLeast?: number;
  readonly atMost?: number;
}

export function parameterGrid(grid: NumberGrid, options: ParameterGridOptions): ParameterGrid {
  const toParameter = options.logarithmic ? Math.log : (value: number) => value;
  const toValue = options.logarithmic ? Math.exp : (parameter: number) => parameter;
  const parameters = new Map<number, number>();
  const parameter = (index: number): number => {
    const known = parameters.get(index);
    if (known !== undefined) return known;
    const computed = toParameter(gridValue(grid, index));
    parameters.set(index, computed);
    return computed;
  };

  let last = gridCount(grid) - 1;
  if (options.atMost !== undefined && gridValue(grid, last) > options.atMost) {
    last = gridIndex(grid, options.atMost);
    if (last > 0 && gridValue(grid, last) > options.atMost) last--;
  }
  let first = 0;
  if (options.atLeast !== undefined && gridValue(grid, 0) < options.atLeast) {
    first = Math.min(gridIndex(grid, options.atLeast), last);
    if (first < last && gridValue(grid, first) < options.atLeast) first++;
  }

  const nearest = (wanted: number): number => {
    let index = Math.min(Math.max(gridIndex(grid, toValue(wanted)), first), last);
    // The grid's own idea of nearest may be in another scale; one step settles it.
    const distance = (i: number) => Math.abs(parameter(i) - wanted);
    if (index < last && distance(index + 1) < distance(index)) index++;
    else if (index > first && distance(index - 1) < distance(index)) index--;
    return index;
  };
  return { first, last, parameter, value: (index) => gridValue(grid, index), nearest };
}
