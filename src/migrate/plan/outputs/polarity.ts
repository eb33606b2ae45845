import type { Configuration, Output, Question } from "../../../model/index.ts";
import { ask, outcomeOf, type Part, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";

/** Inverted polarity, which not every unit offers. */
export function carryPolarity(context: StepContext, configuration: Configuration): Part {
  const { to, words } = context;
  const items: StepItem[] = [];
  const questions: Question[] = [];
  const changed = new Map<string, Output>();
  for (const output of configuration.outputs) {
    const at = place(`outputs/${output.id}/polarity`, words.output(output));
    if (output.polarity === "normal" || to.outputs.invert) {
      items.push({
        outcome: "kept",
        place: at,
        words: `Polarity stays ${output.polarity}.`,
        claims: [at.address],
      });
      continue;
    }
    const verdict = ask(context, polarityQuestion(at));
    questions.push(verdict.question);
    changed.set(output.id, { ...output, polarity: "normal" });
    items.push({
      outcome: outcomeOf(verdict, verdict.option.id === "in-the-cable" ? "moved" : "lost"),
      place: at,
      words: `The new unit cannot invert an output. ${verdict.option.words}`,
      claims: [at.address],
      questionId: verdict.question.id,
    });
  }
  return {
    next: {
      ...configuration,
      outputs: configuration.outputs.map((output) => changed.get(output.id) ?? output),
    },
    items,
    questions,
  };
}

function polarityQuestion(at: StepItem["place"]): Question {
  return {
    id: at.address,
    place: at,
    words: `${at.words} is inverted, and the new unit cannot invert an output. What shall be done?`,
    options: [
      {
        id: "in-the-cable",
        words: "Hot and cold are exchanged in the cable to the amplifier.",
        consequence: "It sounds as before once the cable is changed and marked.",
        numbers: {},
      },
      {
        id: "not-inverted",
        words: "It plays with normal polarity.",
        consequence: "The sum with its neighbours changes: expect a dip around the crossover.",
        numbers: {},
      },
    ],
    recommended: { optionId: "in-the-cable", reason: "only so does the sum stay as it was." },
    unanswered: {
      optionId: "in-the-cable",
      words: "The unit is set to normal; the cable has to be changed.",
    },
  };
}
