import type { ScreenDescription } from "../../../model/index.ts";
import { problemOf, type RoomAnswer, type RoomQuestion } from "./question.ts";
import { type Known, roomQuestions } from "./room-questions.ts";

/** What was answered so far, by the id of the question. */
export type Answers = Readonly<Record<string, RoomAnswer>>;

/** A question with its answer. */
export interface Answered {
  readonly question: RoomQuestion;
  readonly answer: RoomAnswer;
  /** There was nothing to choose. */
  readonly unasked: boolean;
}

/** Where a conversation stands. */
export type Conversation =
  | { readonly kind: "asks"; readonly question: RoomQuestion; readonly answered: readonly Answered[] }
  | {
      readonly kind: "done";
      readonly description: ScreenDescription;
      readonly answered: readonly Answered[];
    };

/**
 * The next question after these answers, or the description when there is none. Answers to questions that are no longer
 * asked, or that no longer fit because an earlier answer changed, do not count.
 *
 * @example
 * let answers = {};
 * for (let now = nextQuestion(known, answers); now.kind === "asks"; now = nextQuestion(known, answers)) {
 *   answers = { ...answers, [now.question.id]: ask(now.question) };
 * }
 */
export function nextQuestion(known: Known, answers: Answers): Conversation {
  const questions = roomQuestions(known);
  const answered: Answered[] = [];
  let step = questions.next();
  while (step.done !== true) {
    const question = step.value;
    const only = onlyChoice(question);
    const answer = only ?? answers[question.id];
    if (answer === undefined || problemOf(question, answer) !== undefined) {
      return { kind: "asks", question, answered };
    }
    answered.push({ question, answer, unasked: only !== undefined });
    step = questions.next(answer);
  }
  return { kind: "done", description: step.value, answered };
}

/** The answers without the last one, so that it is asked again; the same where nothing was answered. */
export function withoutLastAnswer(known: Known, answers: Answers): Answers {
  const last = nextQuestion(known, answers).answered.findLast(({ unasked }) => !unasked);
  if (last === undefined) return answers;
  return Object.fromEntries(Object.entries(answers).filter(([id]) => id !== last.question.id));
}

function onlyChoice(question: RoomQuestion): string | undefined {
  if (question.kind !== "choice" || question.confirm === true) return undefined;
  const [only, ...more] = question.choices;
  return more.length === 0 ? only?.value : undefined;
}
