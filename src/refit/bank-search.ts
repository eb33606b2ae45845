import { type Bank, changedLocally, fittedBank } from "./bank.ts";
import type { FitTask } from "./fit-task.ts";
import { placedSection } from "./placement.ts";
import { type Pruning, prunedBank } from "./pruning.ts";

/** With enough chance to leave a valley. */
const SEARCH_PRUNING: Pruning = {
  tried: 6,
  neighbours: 4,
  trialIterations: 3,
  wholeIterations: 4,
  noise: 1,
};
const MOST_ADDED = 3;
/** A bank within this factor of the current sum is fitted to the end. */
const PROMISING = 1.03;
const PROMISING_ITERATIONS = 12;
/** Mean of the accepted worsening, as a part of the sum (Metropolis rule). */
const TEMPERATURE = 0.03;
/** Gains below this part are rounding errors. */
const LEAST_GAIN = 1e-7;

/**
 * Looks for a better bank of the same size: adds one to three sections at what is left over, prunes as many, keeps
 * the result if it is better (or now and then a little worse), and repeats.
 */
export function searchedBank(task: FitTask, start: Bank, rounds: number): Bank {
  const size = start.sections.length;
  let current = start;
  let best = start;
  for (let round = 0; round < rounds; round++) {
    let trial = current;
    const added = 1 + Math.floor(task.random() * MOST_ADDED);
    for (let a = 0; a < added; a++) trial = withOneMore(task, trial, 5);
    trial = prunedBank(task, trial, size, SEARCH_PRUNING);
    if (trial.sumOfSquares < current.sumOfSquares * PROMISING) {
      trial = fittedBank(task, trial.sections, PROMISING_ITERATIONS);
    }
    if (trial.sumOfSquares < best.sumOfSquares * (1 - LEAST_GAIN)) best = trial;
    const limit = 1 - TEMPERATURE * Math.log(1 - task.random());
    if (trial.sumOfSquares < current.sumOfSquares * limit) current = trial;
  }
  return best;
}

function withOneMore(task: FitTask, bank: Bank, maxIterations: number): Bank {
  const add = placedSection(task, bank.residual);
  return changedLocally(task, bank, { add, neighbours: 3, maxIterations });
}

const PLACES_TRIED = 6;

/** The bank with the most useful of some new sections. */
export function extendedBank(task: FitTask, bank: Bank): Bank {
  let best = withOneMore(task, bank, 6);
  for (let place = 1; place < PLACES_TRIED; place++) {
    const trial = withOneMore(task, bank, 6);
    if (trial.sumOfSquares < best.sumOfSquares) best = trial;
  }
  return fittedBank(task, best.sections, 10);
}
