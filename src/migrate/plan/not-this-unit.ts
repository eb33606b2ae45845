import type { Question, QuestionOption } from "../../model/index.ts";

/** The answer that rules the unit out: whatever else is decided, the plan stays a study and is never ready. */
export const NOT_THIS_UNIT: QuestionOption = {
  id: "not-this-unit",
  words: "This unit is not to go into service here.",
  consequence: "The plan stays a study; no configuration is written.",
  numbers: {},
  rulesOut: true,
};

/** What holds while nobody has decided on something that cannot be done without. */
export const UNDECIDED: Question["unanswered"] = {
  optionId: NOT_THIS_UNIT.id,
  words: "The plan is not to be carried out.",
};

/** The questions whose answer rules the unit out. */
export function rulingOut(questions: readonly Question[]): readonly Question[] {
  return questions.filter(
    ({ answer, options }) => options.find(({ id }) => id === answer?.optionId)?.rulesOut === true,
  );
}
