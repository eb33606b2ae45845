import { sumOfSquares } from "../../base/numeric/index.ts";
import { offeredKind } from "./band-offer.ts";
import type { Bank } from "./bank.ts";
import type { FitTask } from "./fit-task.ts";
import type { ParameterGrid } from "./parameter-grid.ts";
import { sectionDerivatives } from "./section-derivatives.ts";

/**
 * How much of what the steps would cost, if each number were rounded by itself, remains when all are settled together: of
 * the order of a thirtieth (measured on random curves).
 */
const REMAINS = 0.03;

/**
 * What a bank without steps is worth: its sum of squares, and part of what the steps will add to it. Where the steps limit,
 * banks whose boosts and cuts fight each other fit best and settle worst.
 */
export function bankCost(task: FitTask, bank: Bank): number {
  const known = task.costs.get(bank);
  if (known !== undefined) return known;
  const cost = bank.sumOfSquares + REMAINS * roundingSum(task, bank);
  task.costs.set(bank, cost);
  return cost;
}

/** Expected sum of squares when every number is rounded to its nearest step by itself: Σ step²/12·|∂level|². */
function roundingSum(task: FitTask, { sections }: Bank): number {
  const { axis, offer } = task;
  const { columns } = task.workspace(3);
  let sum = 0;
  for (const section of sections) {
    const { frequency, gain, shape } = offeredKind(offer, section);
    sectionDerivatives(axis, section, columns, 0);
    const steps = [
      stepAt(frequency, section.lnF),
      stepAt(gain, section.gainDb),
      stepAt(shape, section.lnShape),
    ];
    steps.forEach((step, k) => {
      sum += ((step * step) / 12) * sumOfSquares(columns.subarray(k * axis.rows, (k + 1) * axis.rows));
    });
  }
  return sum;
}

/** The distance to the next step, in the scale of the fit. */
function stepAt(grid: ParameterGrid, parameter: number): number {
  const index = grid.nearest(parameter);
  const other = index < grid.last ? index + 1 : Math.max(index - 1, grid.first);
  return Math.abs(grid.parameter(other) - grid.parameter(index));
}
