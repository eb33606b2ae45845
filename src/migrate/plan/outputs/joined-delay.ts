import type { Configuration, Output, Question } from "../../../model/index.ts";
import { printMs } from "../../../words/index.ts";
import { clean } from "../staging/restage.ts";
import { ask, outcomeOf, type Part, type StepContext } from "../step.ts";
import { place } from "../words.ts";
import type { Reduction } from "./reduction.ts";

/** Outputs nearer to each other than this are not asked about: 3 cm of air. */
const ASKED_FROM_MS = 0.1;

/**
 * One output has one delay: asks which, where two loudspeakers that it feeds from now on had different ones. Surrounds
 * take the later one, since they must not be heard before the screen; others the mean (common practice, no source).
 */
export function joinedDelay(
  context: StepContext,
  configuration: Configuration,
  { into: intoOld, from }: Extract<Reduction, { readonly kind: "join" }>,
): Part {
  const into = configuration.outputs.find(({ id }) => id === intoOld.id)!;
  const difference = from.delayMs - into.delayMs;
  if (Math.abs(difference) < ASKED_FROM_MS) return { next: configuration, items: [], questions: [] };
  const between = clean(into.delayMs + difference / 2);
  const [own, other] = [nameOf(context.old, into), nameOf(context.old, from)];
  const option = (id: string, words: string, delayMs: number) => ({
    id,
    words: `${words}: ${printMs(delayMs, 2)}.`,
    consequence: [moved(own, delayMs - into.delayMs), moved(other, delayMs - from.delayMs)].join(" "),
    numbers: { delayMs, laterMs: clean(delayMs - into.delayMs) },
  });
  const options = [
    option("keep-own", `The delay stays that of '${own}'`, into.delayMs),
    option("as-joined", `The delay becomes that of '${other}'`, from.delayMs),
    option("between", "The delay becomes the mean of both", between),
  ];
  const surround = placementOf(context.old, into).startsWith("surround");
  const later = difference > 0 ? "as-joined" : "keep-own";
  const address = `outputs/${into.id}/delayMs`;
  const question: Question = {
    id: `outputs/${into.id}/joinedDelay`,
    place: place(address, `${own}, delay`),
    words: `'${own}' and '${other}' share one output and had delays ${printMs(Math.abs(difference), 2)} apart. Which delay shall it have?`,
    options,
    recommended: surround
      ? { optionId: later, reason: "surrounds must not be heard before the screen." }
      : { optionId: "between", reason: "so neither is far from where it was." },
    unanswered: { optionId: surround ? later : "between", words: "The plan takes the recommended delay." },
  };
  const verdict = ask(context, question);
  const delayMs = Number(verdict.option.numbers.delayMs);
  return {
    next: {
      ...configuration,
      outputs: configuration.outputs.map((output) =>
        output.id === into.id ? { ...output, delayMs } : output,
      ),
    },
    items:
      delayMs === into.delayMs || !context.leaves.includes(address)
        ? []
        : [
            {
              outcome: outcomeOf(verdict, "lost"),
              place: question.place,
              words: `The output feeds '${other}' too. ${verdict.option.words}`,
              numbers: verdict.option.numbers,
              claimsRest: [address],
              questionId: question.id,
            },
          ],
    questions: [verdict.question],
  };
}

function moved(name: string, laterMs: number): string {
  if (Math.abs(laterMs) < 0.005) return `'${name}' plays when it did.`;
  return `'${name}' plays ${printMs(Math.abs(laterMs), 2)} ${laterMs > 0 ? "later" : "earlier"} than before.`;
}

function speakerOf({ loudspeakers }: Configuration, { feeds }: Output) {
  return feeds.kind === "loudspeaker" ? loudspeakers.find(({ id }) => id === feeds.loudspeakerId) : undefined;
}

function nameOf(configuration: Configuration, output: Output): string {
  return speakerOf(configuration, output)?.label ?? output.label;
}

function placementOf(configuration: Configuration, output: Output): string {
  return speakerOf(configuration, output)?.placement ?? "";
}
