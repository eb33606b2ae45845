import { ask, outcomeOf, type Step, type StepItem } from "../step.ts";
import { place } from "../words.ts";

/** Asks about every place that no step accounted for, so that nothing is lost in silence. */
export const remainder: Step = {
  name: "remainder",
  run: (context) => {
    const verdicts = context.leaves
      .filter((address) => !context.claimed.has(address))
      .map((address) => ({
        address,
        verdict: ask(context, {
          id: address,
          place: place(address, address),
          words: `No part of the migration answers for '${address}'. Is it right as it stands in the new document?`,
          options: [
            {
              id: "right-as-it-is",
              words: "It is right as it stands.",
              consequence: "Check it on the unit.",
              numbers: {},
            },
          ],
          unanswered: { optionId: "right-as-it-is", words: "It stays as it stands." },
        }),
      }));
    return {
      next: context.next,
      items: verdicts.map(
        ({ address, verdict }): StepItem => ({
          outcome: outcomeOf(verdict, "kept"),
          place: place(address, address),
          words: "It stays as it stands.",
          claims: [address],
          questionId: verdict.question.id,
        }),
      ),
      questions: verdicts.map(({ verdict }) => verdict.question),
    };
  },
};
