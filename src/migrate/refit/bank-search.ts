import {
  type Bank,
  fittedBank,
  nearestSections,
  partlyFitted,
  sumWithout,
  withoutSection,
  withSection,
} from "./bank.ts";
import { bankCost } from "./bank-cost.ts";
import type { FitTask } from "./fit-task.ts";
import { placedSection } from "./placement.ts";

const MOST_RELOCATED = 3;
/** Of so many sections drawn, the one that matters least on its own is taken away. */
const DRAWN = 3;
/** What is fitted again where a section is taken away, and where one is put. */
const AFTER_REMOVAL = { neighbours: 4, maxIterations: 4 };
const AFTER_PLACEMENT = { neighbours: 3, maxIterations: 6 };
const STOP = 1e-3;
/** Fits of the whole bank, each only for a bank within a factor of the present sum. */
const WHOLE_FITS = [
  { within: 1.5, maxIterations: 5, stop: STOP },
  { within: 1.1, maxIterations: 15, stop: 1e-4 },
] as const;
/** Mean of the accepted worsening, as a part of the cost (Metropolis rule). */
const TEMPERATURE = 0.03;
/** Banks whose costs differ by less than this part are taken for the same. */
const SAME = 1e-3;

/**
 * Looks for better banks of the same size: takes one to three sections away and puts as many where something is left over;
 * fits what is near, and all where that is promising; keeps the result if it is better (or now and then a little worse), and
 * repeats.
 *
 * @param kept how many different banks to keep
 * @returns the best found, best first; the start may be among them
 */
export function relocatedBanks(task: FitTask, start: Bank, rounds: number, kept: number): readonly Bank[] {
  const { random } = task;
  const found: Bank[] = [start];
  let current = start;
  for (let round = 0; round < rounds; round++) {
    const trial = fittedIfPromising(task, relocated(task, current), current.sumOfSquares);
    keep(task, found, trial, kept);
    const limit = 1 - TEMPERATURE * Math.log(1 - random());
    if (bankCost(task, trial) < bankCost(task, current) * limit) current = trial;
  }
  return found;
}

function relocated(task: FitTask, bank: Bank): Bank {
  const { random } = task;
  const count = Math.min(1 + Math.floor(random() * MOST_RELOCATED), Math.max(bank.sections.length - 1, 1));
  let trial = bank;
  for (let k = 0; k < count; k++) trial = withOneRemoved(task, trial);
  for (let k = 0; k < count; k++) trial = withOnePlaced(task, trial);
  return trial;
}

function withOneRemoved(task: FitTask, bank: Bank): Bank {
  return withoutSection(task, bank, dispensable(task, bank), AFTER_REMOVAL);
}

function withOnePlaced(task: FitTask, bank: Bank): Bank {
  const section = placedSection(task, bank.residual);
  const near = nearestSections(bank.sections, section.lnF, AFTER_PLACEMENT.neighbours);
  const free = [...near, bank.sections.length];
  return partlyFitted(task, withSection(task, bank, section), free, AFTER_PLACEMENT.maxIterations, STOP);
}

function fittedIfPromising(task: FitTask, bank: Bank, present: number): Bank {
  let fitted = bank;
  for (const { within, maxIterations, stop } of WHOLE_FITS) {
    if (fitted.sumOfSquares > within * present) break;
    fitted = fittedBank(task, fitted.sections, maxIterations, stop);
  }
  return fitted;
}

function dispensable(task: FitTask, bank: Bank): number {
  let least = Number.POSITIVE_INFINITY;
  let chosen = 0;
  for (let draw = 0; draw < DRAWN; draw++) {
    const index = Math.floor(task.random() * bank.sections.length);
    const sum = sumWithout(task, bank, index);
    if (sum < least) {
      least = sum;
      chosen = index;
    }
  }
  return chosen;
}

/** Puts a bank among the best so far, in order. */
function keep(task: FitTask, found: Bank[], bank: Bank, most: number): void {
  const cost = bankCost(task, bank);
  if (found.some((known) => Math.abs(bankCost(task, known) - cost) <= SAME * cost)) return;
  const at = found.findIndex((known) => bankCost(task, known) > cost);
  found.splice(at < 0 ? found.length : at, 0, bank);
  if (found.length > most) found.pop();
}

const PLACES_TRIED = 4;

/** The bank with the most useful of some new sections. */
export function extendedBank(task: FitTask, bank: Bank): Bank {
  let best: Bank | undefined;
  for (let place = 0; place < PLACES_TRIED; place++) {
    const trial = fittedBank(task, [...bank.sections, placedSection(task, bank.residual)], 8);
    if (best === undefined || trial.sumOfSquares < best.sumOfSquares) best = trial;
  }
  return best!;
}
