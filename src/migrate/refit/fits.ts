import { seededRandom } from "../../base/numeric/index.ts";
import { type Bank, emptyBank, fittedBank, polishedBank } from "./bank.ts";
import { extendedBank, relocatedBanks } from "./bank-search.ts";
import { EFFORTS, type Effort, roundsFor } from "./effort.ts";
import { coarseGround, type FitGround, type FitTask } from "./fit-task.ts";
import { nearestSteps, settledSteps } from "./nearest-steps.ts";
import { eliminated } from "./pruning.ts";
import type { Section } from "./section-response.ts";
import { emptySteppedBank, type SteppedBank } from "./stepped-bank.ts";
import { descendedSteps, extendedSteps, searchedSteps } from "./stepped-search.ts";

/** Fits with so many bands, each computed when asked for and then remembered. */
export interface Fits {
  /** The sum of squares of a first fit without steps: soon had, seldom much too large. */
  readonly estimate: (bands: number) => number;
  /** The best bank found on the unit's steps with at most so many bands. */
  readonly stepped: (bands: number, effort: Effort) => SteppedBank;
}

/** Where a fit without steps with one band fewer leaves less than this part, more bands only mend what the steps cost. */
const ONLY_THE_STEPS = 0.25;
/** The part of the rounds that mending takes. */
const MENDING_ROUNDS = 1 / 4;
/** Where a fit without steps leaves less than this part, a start from fewer bands on the steps is worth a try. */
const MOSTLY_THE_STEPS = 0.5;
/** A sum per row, in dB², that is no error any more. */
const NOTHING = 1e-7;
const WIDE_BEAM = 64;
const NARROW_BEAM = 16;
/** So many banks on the steps are searched further. */
const CANDIDATES = 8;

/**
 * Fits by any number of bands. What is found for a number of bands does not depend on what was asked for before.
 *
 * @param source the bands that made the curve, as far as the target offers their kind; may be empty
 */
export function fits(task: FitGround, source: readonly Section[]): Fits {
  const coarse = coarseGround(task);
  const pruned = eliminated(coarse, source);
  const starts: Bank[] = [emptyBank(coarse)];
  const known = new Map<string, SteppedBank>();

  function start(bands: number): Bank {
    for (let size = starts.length; size <= bands; size++) {
      const extended = extendedBank({ ...coarse, random: seededRandom(size) }, starts[size - 1]!);
      const fromSource = pruned[size];
      const better = fromSource !== undefined && fromSource.sumOfSquares < extended.sumOfSquares;
      starts.push(better ? fromSource : extended);
    }
    return starts[bands]!;
  }

  function stepped(bands: number, effort: Effort): SteppedBank {
    if (bands === 0) return emptySteppedBank(task);
    const key = JSON.stringify([bands, effort]);
    const found = known.get(key) ?? searched(bands, effort);
    known.set(key, found);
    return found;
  }

  function searched(bands: number, effort: Effort): SteppedBank {
    const own: FitTask = { ...task, random: seededRandom(-bands) };
    const first = start(bands);
    const atOnce = settledSteps(own, polishedBank(task, first).sections, task.bare, WIDE_BEAM);
    const rounds = roundsFor(bands, effort.resettlingsPerBand);
    if (bands > 1 && start(bands - 1).sumOfSquares < ONLY_THE_STEPS * atOnce.sumOfSquares) {
      const below = stepped(bands - 1, effort);
      const extended = best([extendedSteps(own, below), atOnce]);
      return best([below, descendedSteps(own, searchedSteps(own, extended, MENDING_ROUNDS * rounds))]);
    }
    const candidates = [atOnce, ...relocated(own, first, effort)];
    const mostlyTheSteps = first.sumOfSquares < MOSTLY_THE_STEPS * best(candidates).sumOfSquares;
    if (bands > 1 && effort.startsFromFewer && mostlyTheSteps) {
      candidates.push(extendedSteps(own, stepped(bands - 1, EFFORTS.quick)));
    }
    return descendedSteps(own, tournament(own, candidates, rounds));
  }

  function relocated(own: FitTask, first: Bank, effort: Effort): readonly SteppedBank[] {
    if (first.sumOfSquares < NOTHING * task.axis.rows) return [];
    const from = fittedBank(coarse, first.sections, 15);
    const rounds = roundsFor(first.sections.length, effort.relocationsPerBand);
    return relocatedBanks({ ...coarse, random: own.random }, from, rounds, effort.kept)
      .map((bank) => fittedBank(task, bank.sections, 8, 1e-4))
      .map((bank) => nearestSteps(own, bank.sections, task.bare, NARROW_BEAM));
  }

  return { estimate: (bands) => start(bands).sumOfSquares, stepped };
}

/** Searches from the best candidates, drops the worse half, and so on with half the rounds until one is left. */
function tournament(task: FitTask, candidates: readonly SteppedBank[], rounds: number): SteppedBank {
  let left = [...candidates].sort(bySum).slice(0, CANDIDATES);
  for (let share = rounds / 2; left.length > 1; share /= 2) {
    const each = Math.ceil(share / left.length);
    const searched = left.map((candidate) => searchedSteps(task, candidate, each));
    left = searched.sort(bySum).slice(0, left.length >> 1);
  }
  return searchedSteps(task, left[0]!, rounds / 3);
}

function best(banks: readonly SteppedBank[]): SteppedBank {
  return banks.reduce((least, bank) => (bank.sumOfSquares < least.sumOfSquares ? bank : least));
}

function bySum(a: SteppedBank, b: SteppedBank): number {
  return a.sumOfSquares - b.sumOfSquares;
}
