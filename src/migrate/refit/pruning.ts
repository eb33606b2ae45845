import { type Bank, fittedBank, sumWithout, withoutSection } from "./bank.ts";
import type { FitGround } from "./fit-task.ts";
import type { Section } from "./section-response.ts";

/** So many of the sections that matter least on their own are tried. */
const TRIED = 6;
/** Neighbours fitted with each trial. */
const NEIGHBOURS = 5;
const TRIAL_ITERATIONS = 4;
/** Iterations of the whole bank after each removal. */
const WHOLE_ITERATIONS = 4;

/** Takes away the section whose loss its neighbours repair best. */
function withOneLess(task: FitGround, bank: Bank): Bank {
  const candidates = bank.sections
    .map((_, index) => ({ index, sum: sumWithout(task, bank, index) }))
    .sort((a, b) => a.sum - b.sum || a.index - b.index)
    .slice(0, TRIED);
  let best: Bank | undefined;
  for (const { index } of candidates) {
    const trial = withoutSection(task, bank, index, {
      neighbours: NEIGHBOURS,
      maxIterations: TRIAL_ITERATIONS,
    });
    if (best === undefined || trial.sumOfSquares < best.sumOfSquares) best = trial;
  }
  return fittedBank(task, best!.sections, WHOLE_ITERATIONS);
}

/**
 * Starts from the source's own bands and takes them away one at a time.
 *
 * @returns the bank of each size, from 1 (index 1) to all of them
 */
export function eliminated(task: FitGround, source: readonly Section[]): readonly (Bank | undefined)[] {
  const banks: (Bank | undefined)[] = [];
  if (source.length === 0) return banks;
  let bank = fittedBank(task, source, 20);
  banks[bank.sections.length] = bank;
  while (bank.sections.length > 1) {
    bank = withOneLess(task, bank);
    banks[bank.sections.length] = bank;
  }
  return banks;
}
