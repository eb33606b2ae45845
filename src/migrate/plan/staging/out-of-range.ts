import type { NumberGrid, PlanPlace, Question } from "../../../model/index.ts";
import { gridNearest } from "../../../profile/index.ts";
import { type Asking, ask, type Verdict } from "../step.ts";

/** A number that no setting of the unit comes near to, after everything was moved that could be. */
export interface OutOfRange {
  readonly place: PlanPlace;
  readonly wanted: number;
  readonly grid: NumberGrid;
  /** "−62.0 dB" */
  readonly print: (value: number) => string;
  /** What can be done without: a crossing is left out, an output stays muted. */
  readonly without: { readonly optionId: "leave-out" | "mute-output"; readonly words: string } | undefined;
  /** True: too much of it could harm, so nothing is done until somebody decides. */
  readonly careful: boolean;
}

/** Asks what to do; the option `nearest` takes the end of the unit's range. */
export function askOutOfRange(context: Asking, problem: OutOfRange): Verdict {
  const { wanted, grid, print, without, careful } = problem;
  const nearest = gridNearest(grid, wanted);
  const question: Question = {
    id: problem.place.address,
    place: problem.place,
    words: `${problem.place.words}: ${print(wanted)} is outside of what the new unit can set. What shall be done?`,
    options: [
      {
        id: "nearest",
        words: `It is set to ${print(nearest)}.`,
        consequence: `That is ${print(nearest - wanted)} off, which the proof will show on its paths.`,
        numbers: { wanted, set: nearest },
      },
      ...(without === undefined
        ? []
        : [
            {
              id: without.optionId,
              words: without.words,
              consequence: "It is not heard.",
              numbers: { wanted },
            },
          ]),
    ],
    recommended: { optionId: "nearest", reason: "it comes nearest to what was set." },
    unanswered:
      careful && without !== undefined
        ? { optionId: without.optionId, words: without.words }
        : { optionId: "nearest", words: "The plan takes the nearest setting." },
  };
  return ask(context, question);
}
