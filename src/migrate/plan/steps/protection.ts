import type { Output, Question } from "../../../model/index.ts";
import { carryCrossover } from "../protection/crossover.ts";
import { carryFir } from "../protection/fir.ts";
import { carryLimiter } from "../protection/limiter.ts";
import { replaceById, type Step, type StepItem } from "../step.ts";
import { place } from "../words.ts";

/**
 * What guards drivers: crossovers, protective filters, limiters, FIR blocks. Never approximated: the same, or a question
 * and a muted output until it is answered.
 */
export const protection: Step = {
  name: "protection",
  run: (context) => {
    const parts = context.next.outputs.map((output) => {
      const highPass = carryCrossover(context, output, "high-pass");
      const lowPass = carryCrossover(context, output, "low-pass");
      const limiter = carryLimiter(context, output);
      const fir = carryFir(context, output);
      const all = [highPass, lowPass, limiter, fir];
      const silencing = all.filter(({ silence }) => silence).flatMap(({ questions }) => questions);
      const mute = muteItem(output, silencing, context.words.output(output));
      const { highPass: _h, lowPass: _l, limiter: _m, fir: _f, ...rest } = output;
      const now: Output = {
        ...rest,
        ...(highPass.value === undefined ? {} : { highPass: highPass.value }),
        ...(lowPass.value === undefined ? {} : { lowPass: lowPass.value }),
        ...(limiter.value === undefined ? {} : { limiter: limiter.value }),
        ...(fir.value === undefined ? {} : { fir: fir.value }),
        mute: output.mute || silencing.length > 0,
      };
      return {
        now,
        items: [
          ...all.flatMap(({ items }) => items),
          ...(context.claimed.has(mute.place.address) ? [] : [mute]),
        ],
        questions: all.flatMap(({ questions }) => questions),
      };
    });
    return {
      next: {
        ...context.next,
        outputs: replaceById(context.next.outputs, new Map(parts.map(({ now }) => [now.id, now]))),
      },
      items: parts.flatMap(({ items }) => items),
      questions: parts.flatMap(({ questions }) => questions),
    };
  },
};

/** Whether an output plays; `silencing` are the questions because of which it does not. */
function muteItem(output: Output, silencing: readonly Question[], words: string): StepItem {
  const at = place(`outputs/${output.id}/mute`, words);
  const question = silencing.find(({ answer }) => answer === undefined) ?? silencing[0];
  if (output.mute || question === undefined) {
    const text = output.mute ? "It stays muted." : "It plays.";
    return { outcome: "kept", place: at, words: text, claims: [at.address] };
  }
  return {
    outcome: question.answer === undefined ? "asks" : "lost",
    place: at,
    words: "The output stays muted, because what guards its driver is not settled.",
    claims: [at.address],
    questionId: question.id,
  };
}
