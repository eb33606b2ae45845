import { type Bank, changedLocally, fittedBank, sumWithout } from "./bank.ts";
import type { FitTask } from "./fit-task.ts";
import type { Section } from "./section-response.ts";

export interface Pruning {
  /** So many of the sections that matter least on their own are tried. */
  readonly tried: number;
  /** Neighbours fitted with each trial, and for how long. */
  readonly neighbours: number;
  readonly trialIterations: number;
  /** Iterations of the whole bank after each removal. */
  readonly wholeIterations: number;
  /** Random factor up to e^noise on each loss, for variety. 0: none. */
  readonly noise: number;
}

/** Takes away the section whose loss its neighbours repair best, again and again, until `size` are left. */
export function prunedBank(task: FitTask, bank: Bank, size: number, pruning: Pruning): Bank {
  let pruned = bank;
  while (pruned.sections.length > size) pruned = withOneLess(task, pruned, pruning);
  return pruned;
}

function withOneLess(task: FitTask, bank: Bank, pruning: Pruning): Bank {
  const { neighbours, trialIterations, noise } = pruning;
  const candidates = bank.sections
    .map((_, index) => ({ index, sum: sumWithout(task, bank, index) }))
    .sort((a, b) => a.sum - b.sum || a.index - b.index)
    .slice(0, pruning.tried);
  let best: Bank | undefined;
  let leastLoss = Number.POSITIVE_INFINITY;
  for (const { index } of candidates) {
    const trial = changedLocally(task, bank, { remove: index, neighbours, maxIterations: trialIterations });
    const loss = noise === 0 ? trial.sumOfSquares : trial.sumOfSquares * Math.exp(noise * task.random());
    if (best === undefined || loss < leastLoss) {
      best = trial;
      leastLoss = loss;
    }
  }
  return fittedBank(task, best!.sections, pruning.wholeIterations);
}

/** Careful and without chance: this path is walked once. */
const ELIMINATION: Pruning = { tried: 8, neighbours: 6, trialIterations: 6, wholeIterations: 4, noise: 0 };

/**
 * Starts from the source's own bands and takes them away one at a time.
 *
 * @returns the bank of each size, from 1 (index 1) to all of them
 */
export function eliminated(task: FitTask, source: readonly Section[]): readonly (Bank | undefined)[] {
  const banks: (Bank | undefined)[] = [];
  if (source.length === 0) return banks;
  let bank = fittedBank(task, source, 20);
  banks[bank.sections.length] = bank;
  while (bank.sections.length > 1) {
    bank = prunedBank(task, bank, bank.sections.length - 1, ELIMINATION);
    banks[bank.sections.length] = bank;
  }
  return banks;
}
