import type { Configuration, Output, Question } from "../../../model/index.ts";
import { leaveOut } from "../leave-out.ts";
import { outcomeOf, type Part, replaceById, type StepContext, type StepItem } from "../step.ts";
import { place } from "../words.ts";

/** Program channels in one output, as many as the unit can sum. The quietest are proposed to go. */
export function withinMix(context: StepContext, configuration: Configuration): Part {
  const { to, words } = context;
  const items: StepItem[] = [];
  const questions: Question[] = [];
  const changed = new Map<string, Output>();
  for (const output of configuration.outputs) {
    const at = place(`outputs/${output.id}/mix`, `${words.output(output)}, mix`);
    const left = leaveOut(context, {
      questionId: at.address,
      place: at,
      things: "program channels in one output",
      max: to.outputs.mixMax,
      count: output.mix.length,
      candidates: output.mix
        .toSorted((a, b) => a.gainDb - b.gainDb)
        .map(({ channelId, gainDb }) => ({
          id: channelId,
          label: words.channel(channelId),
          loss: `its share of ${gainDb} dB is not heard there.`,
        })),
      reason: "they are the quietest there.",
    });
    if (left.verdict === undefined) continue;
    changed.set(output.id, {
      ...output,
      mix: output.mix.filter(({ channelId }) => !left.ids.has(channelId)),
    });
    questions.push(left.verdict.question);
    items.push({
      outcome: outcomeOf(left.verdict, "lost"),
      place: at,
      words: `${left.ids.size} program channels are left out of the mix.`,
      claimsRest: [...left.ids].map((id) => `${at.address}/${id}`),
      questionId: left.verdict.question.id,
    });
  }
  return {
    next: { ...configuration, outputs: replaceById(configuration.outputs, changed) },
    items,
    questions,
  };
}
