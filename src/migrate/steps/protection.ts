import type { Output } from "../../model/index.ts";
import { outputOrder } from "../order.ts";
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
    const parts = [...context.next.outputs].sort(outputOrder(context.to)).map((output) => {
      const highPass = carryCrossover(context, output, "high-pass");
      const lowPass = carryCrossover(context, output, "low-pass");
      const limiter = carryLimiter(context, output);
      const fir = carryFir(context, output);
      const all = [highPass, lowPass, limiter, fir];
      const mute = muteItem(
        output,
        all.some(({ silence }) => silence),
        all.flatMap(({ questions }) => questions).some(({ answer }) => answer === undefined),
        context.words.output(output),
      );
      const { highPass: _h, lowPass: _l, limiter: _m, fir: _f, ...rest } = output;
      const now: Output = {
        ...rest,
        ...(highPass.value === undefined ? {} : { highPass: highPass.value }),
        ...(lowPass.value === undefined ? {} : { lowPass: lowPass.value }),
        ...(limiter.value === undefined ? {} : { limiter: limiter.value }),
        ...(fir.value === undefined ? {} : { fir: fir.value }),
        mute: output.mute || mute.silence,
      };
      return {
        now,
        items: [...all.flatMap(({ items }) => items), mute.item],
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

function muteItem(output: Output, silence: boolean, open: boolean, words: string) {
  const at = `outputs/${output.id}/mute`;
  const muted = silence && !output.mute;
  const item: StepItem = {
    outcome: muted ? (open ? "asks" : "lost") : "kept",
    place: place(at, words),
    words: muted
      ? "The output stays muted, because what guards its driver is not settled."
      : output.mute
        ? "It stays muted."
        : "It plays.",
    claims: [at],
  };
  return { item, silence };
}
