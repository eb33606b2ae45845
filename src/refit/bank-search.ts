import { type Bank, fittedBank, sumWithout } from "./bank.ts";
import type { FitTask } from "./fit-task.ts";
import { placedSection } from "./placement.ts";

const MOST_RELOCATED = 3;
/** Of so many sections drawn, the one that matters least on its own is taken away. */
const DRAWN = 3;
const AFTER_REMOVAL = 2;
const AFTER_PLACEMENT = 6;
const STOP = 1e-3;
/** A bank within this factor of the present sum is fitted on. */
const PROMISING = 1.1;
const PROMISING_ITERATIONS = 15;
const PROMISING_STOP = 1e-4;
/** Mean of the accepted worsening, as a part of the sum (Metropolis rule). */
const TEMPERATURE = 0.03;
/** Banks whose sums differ by less than this part are taken for the same. */
const SAME = 1e-3;

/**
 * Looks for better banks of the same size: takes one to three sections away and puts as many where something is left over,
 * fitting all of them after every change; keeps the result if it is better (or now and then a little worse), and repeats.
 *
 * @param kept how many different banks to keep
 * @returns the best found, best first; the start may be among them
 */
export function relocatedBanks(task: FitTask, start: Bank, rounds: number, kept: number): readonly Bank[] {
  const { random } = task;
  const found: Bank[] = [start];
  let current = start;
  for (let round = 0; round < rounds; round++) {
    const trial = relocated(task, current);
    keep(found, trial, kept);
    const limit = 1 - TEMPERATURE * Math.log(1 - random());
    if (trial.sumOfSquares < current.sumOfSquares * limit) current = trial;
  }
  return found;
}

function relocated(task: FitTask, bank: Bank): Bank {
  const { random } = task;
  const count = Math.min(1 + Math.floor(random() * MOST_RELOCATED), Math.max(bank.sections.length - 1, 1));
  let trial = bank;
  for (let k = 0; k < count; k++) {
    const away = dispensable(task, trial);
    const rest = trial.sections.filter((_, index) => index !== away);
    trial = fittedBank(task, rest, AFTER_REMOVAL, STOP);
  }
  for (let k = 0; k < count; k++) {
    const sections = [...trial.sections, placedSection(task, trial.residual)];
    trial = fittedBank(task, sections, AFTER_PLACEMENT, STOP);
  }
  return trial.sumOfSquares < bank.sumOfSquares * PROMISING
    ? fittedBank(task, trial.sections, PROMISING_ITERATIONS, PROMISING_STOP)
    : trial;
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
function keep(found: Bank[], bank: Bank, most: number): void {
  const { sumOfSquares } = bank;
  if (found.some((known) => Math.abs(known.sumOfSquares - sumOfSquares) <= SAME * sumOfSquares)) return;
  const at = found.findIndex((known) => known.sumOfSquares > sumOfSquares);
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
