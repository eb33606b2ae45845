import { seededRandom } from "../numeric/index.ts";
import { type Bank, emptyBank, fittedBank, polishedBank } from "./bank.ts";
import { extendedBank, relocatedBanks } from "./bank-search.ts";
import { coarseTask, type FitTask } from "./fit-task.ts";
import { settledSteps } from "./nearest-steps.ts";
import { eliminated } from "./pruning.ts";
import type { Section } from "./section-response.ts";
import { type SteppedBank, steppedBank } from "./stepped-bank.ts";
import { descendedSteps, extendedSteps, searchedSteps } from "./stepped-search.ts";

/** How long to search. */
export interface Effort {
  /** Rounds of the search without steps. */
  readonly relocations: number;
  /** Banks that are put on the steps. */
  readonly kept: number;
  /** Rounds of the search on the steps, per band. */
  readonly resettlingsPerBand: number;
}

/** Fits with so many bands, each computed when asked for and then remembered. */
export interface Fits {
  /** The sum of squares of a first fit without steps: soon had, seldom much too large. */
  readonly estimate: (bands: number) => number;
  /** The best bank found on the unit's steps with at most so many bands. */
  readonly stepped: (bands: number, effort: Effort) => SteppedBank;
}

/** Where a fit without steps with one band fewer leaves less than this part, the steps are what limits. */
const STEPS_LIMIT = 0.25;
/** A sum that is no error any more, per row in dB². */
const NOTHING = 1e-7;
const WIDE_BEAM = 64;

/**
 * @param source the bands that made the curve, as far as the target offers their kind; may be empty
 */
export function fits(task: FitTask, source: readonly Section[]): Fits {
  const coarse = coarseTask(task);
  const starts = eliminated(coarse, source);
  const free: Bank[] = [emptyBank(coarse)];
  const steppedKnown = new Map<string, SteppedBank>();

  const start = (bands: number): Bank => {
    if (free[bands] === undefined) {
      const below = start(bands - 1);
      const extended = extendedBank({ ...coarse, random: seededRandom(bands) }, below);
      const pruned = starts[bands];
      const better =
        pruned !== undefined && pruned.sumOfSquares < extended.sumOfSquares ? pruned : extended;
      free[bands] = better;
    }
    return free[bands];
  };

  const stepped = (bands: number, effort: Effort): SteppedBank => {
    const key = `${bands}:${effort.relocations}`;
    const known = steppedKnown.get(key);
    if (known !== undefined) return known;
    const found = bands === 0 ? steppedBank(task, []) : computed(bands, effort);
    steppedKnown.set(key, found);
    return found;
  };

  const computed = (bands: number, effort: Effort): SteppedBank => {
    const own: FitTask = { ...task, random: seededRandom(1000 + bands) };
    const first = start(bands);
    const polished = polishedBank(task, first);
    const atOnce = settledSteps(own, polished.sections, task.bare, WIDE_BEAM);
    if (bands > 1 && start(bands - 1).sumOfSquares < STEPS_LIMIT * atOnce.sumOfSquares) {
      const below = stepped(bands - 1, effort);
      const extended = extendedSteps(own, below);
      return best([
        below,
        descendedSteps(own, searchedSteps(own, best([extended, atOnce]), effort.resettlingsPerBand * bands)),
      ]);
    }
    const banks =
      first.sumOfSquares < NOTHING * task.axis.rows
        ? [first]
        : relocatedBanks(
            { ...coarse, random: own.random },
            fittedBank(coarse, first.sections, 15),
            effort.relocations,
            effort.kept,
          );
    let candidates = [
      atOnce,
      ...banks.map((bank) => settledSteps(own, polishedBank(task, bank).sections, task.bare, WIDE_BEAM)),
    ].sort((a, b) => a.sumOfSquares - b.sumOfSquares);
    // Half of the candidates, half of the rounds, until one is left.
    let rounds = effort.resettlingsPerBand * bands;
    while (candidates.length > 1) {
      candidates = candidates.slice(0, Math.ceil(candidates.length / 2));
      rounds /= 2;
      candidates = candidates
        .map((candidate) => searchedSteps(own, candidate, Math.ceil(rounds / candidates.length)))
        .sort((a, b) => a.sumOfSquares - b.sumOfSquares);
    }
    return descendedSteps(own, searchedSteps(own, candidates[0]!, Math.ceil(rounds)));
  };

  return { estimate: (bands) => start(bands).sumOfSquares, stepped };
}

function best(banks: readonly SteppedBank[]): SteppedBank {
  return banks.reduce((least, bank) => (bank.sumOfSquares < least.sumOfSquares ? bank : least));
}
