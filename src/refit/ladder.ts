import { type Bank, emptyBank, polishedBank } from "./bank.ts";
import { extendedBank, searchedBank } from "./bank-search.ts";
import type { FitTask } from "./fit-task.ts";
import { eliminated } from "./pruning.ts";
import type { Section } from "./section-response.ts";
import { roundedInStages, type SteppedBank, steppedBank } from "./stepped-bank.ts";
import { extendedSteps, searchedSteps } from "./stepped-search.ts";

/** Rounds of search on a rung of so many bands. */
export interface Effort {
  /** Without steps. */
  readonly freeRounds: (bands: number) => number;
  /** On the steps. */
  readonly steppedRounds: (bands: number) => number;
}

/** Below this part of what the steps cost, a better fit without steps is of no use. */
const BELOW_THE_STEPS = 0.02;

/**
 * The best bank found with at most 0, 1, 2 … bands, each on the unit's steps. A rung starts from the one below, from the
 * source with bands taken away, and from chance; it does not depend on how many rungs will follow. It is never worse
 * than the one below: where one more band does not help, the rung repeats the bank below.
 *
 * @param source the bands that made the curve, as far as the target offers their kind; may be empty
 * @returns rung after rung, as far as they are asked for
 */
export function* ladder(
  task: FitTask,
  source: readonly Section[],
  effort: Effort,
): Generator<SteppedBank, never> {
  let stepped = steppedBank(task, []);
  yield stepped;
  const starts = eliminated(task, source);
  let free = emptyBank(task);
  for (let size = 1; ; size++) {
    const candidates: SteppedBank[] = [];
    if (size === 1 || free.sumOfSquares > BELOW_THE_STEPS * stepped.sumOfSquares) {
      free = freeRung(task, free, starts[size], effort.freeRounds(size));
      candidates.push(steppedBank(task, roundedInStages(task, free.sections, task.bare)));
    }
    if (size > 1) candidates.push(extendedSteps(task, stepped));
    stepped = steppedRung(task, stepped, candidates, effort.steppedRounds(size));
    yield stepped;
  }
}

function freeRung(task: FitTask, below: Bank, eliminatedBank: Bank | undefined, rounds: number): Bank {
  const extended = extendedBank(task, below);
  if (eliminatedBank === undefined) return polishedBank(task, searchedBank(task, extended, rounds));
  const [better, other] =
    eliminatedBank.sumOfSquares < extended.sumOfSquares
      ? [eliminatedBank, extended]
      : [extended, eliminatedBank];
  const first = searchedBank(task, better, rounds);
  const second = searchedBank(task, other, Math.floor(rounds / 2));
  return polishedBank(task, first.sumOfSquares <= second.sumOfSquares ? first : second);
}

function steppedRung(
  task: FitTask,
  below: SteppedBank,
  candidates: readonly SteppedBank[],
  rounds: number,
): SteppedBank {
  let best = below;
  for (const candidate of candidates) {
    const searched = searchedSteps(task, candidate, Math.ceil(rounds / candidates.length));
    if (searched.sumOfSquares < best.sumOfSquares) best = searched;
  }
  return searchedSteps(task, best, Math.floor(rounds / 2));
}
