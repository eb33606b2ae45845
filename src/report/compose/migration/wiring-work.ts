import type { PlanDocument, Question, QuestionOption } from "../../../model/index.ts";
import type { Block, Item } from "../../document.ts";

/**
 * What has to be done in the rack besides moving cables, by the decisions: conductors exchanged, amplifier inputs in
 * parallel, converters, limiters elsewhere. Empty where there is nothing.
 */
export function wiringWork(questions: PlanDocument["questions"]): readonly Block[] {
  const items = questions.flatMap((question): readonly Item[] => {
    const chosen = question.options.find(
      ({ id }) => id === (question.answer?.optionId ?? question.unanswered.optionId),
    );
    const text = chosen === undefined ? undefined : workWords(question, chosen);
    return text === undefined ? [] : [{ lead: question.place.words, text }];
  });
  if (items.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: "Besides the cables" },
    { kind: "list", marker: "box", items },
  ];
}

function workWords({ id }: Question, option: QuestionOption): string | undefined {
  if (id.startsWith("outputs/room-")) return option.words;
  if (option.id === "in-the-cable") return `${option.words} Mark the cable.`;
  if (option.id === "limiter-elsewhere") return `${option.words} ${option.consequence}`;
  return option.id.startsWith("convert-to-") ? `${option.words} ${option.consequence}` : undefined;
}
