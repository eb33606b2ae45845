import type { PlanPlace, Question } from "../../model/index.ts";
import { type Asking, ask, type Verdict } from "./step.ts";

/** More items than the unit can hold. */
export interface TooMany {
  readonly questionId: string;
  readonly place: PlanPlace;
  /** "presets" */
  readonly things: string;
  readonly max: number;
  /** What could be left out, the one that is missed least first; each with what is missed then. */
  readonly candidates: readonly { readonly id: string; readonly label: string; readonly loss: string }[];
  /** How many there are; those that are no candidates have to stay. */
  readonly count: number;
  readonly reason: string;
}

export interface LeftOut {
  readonly ids: ReadonlySet<string>;
  readonly verdict: Verdict | undefined;
}

/** Asks which items to leave out when there are more than the unit can hold. */
export function leaveOut(context: Asking, problem: TooMany): LeftOut {
  const excess = problem.count - problem.max;
  if (excess <= 0) return { ids: new Set(), verdict: undefined };
  const proposed = problem.candidates.slice(0, excess);
  const question: Question = {
    id: problem.questionId,
    place: problem.place,
    words: `The unit holds at most ${problem.max} of the ${problem.count} ${problem.things}. Which ${excess === 1 ? "one" : excess} shall be left out?`,
    options: [
      {
        id: "as-proposed",
        words: `Leave out ${proposed.map(({ label }) => `'${label}'`).join(", ")}.`,
        consequence: lossesWords(proposed),
        numbers: { leftOut: excess },
      },
      {
        id: "own-choice",
        words: "Leave out others.",
        consequence: "The answer names them; the plan then says what is lost.",
        numbers: { leftOut: excess },
        takes: "ids",
        candidates: problem.candidates.map(({ id }) => id),
        idsCount: excess,
      },
    ],
    recommended: { optionId: "as-proposed", reason: problem.reason },
    unanswered: { optionId: "as-proposed", words: "The plan leaves them out as proposed." },
  };
  const verdict = ask(context, question);
  const ids = verdict.answer?.ids ?? proposed.map(({ id }) => id);
  return { ids: new Set(ids), verdict };
}

/** What is missed, things of which the same is to be said together. */
function lossesWords(candidates: TooMany["candidates"]): string {
  const groups = new Map<string, string[]>();
  for (const { label, loss } of candidates) groups.set(loss, [...(groups.get(loss) ?? []), `'${label}'`]);
  return [...groups].map(([loss, labels]) => `${labels.join(", ")}: ${loss}`).join(" ");
}
