import type {
  Choice,
  ChoiceQuestion,
  NumberQuestion,
  RoomAnswer,
  RoomQuestion,
  SeveralQuestion,
  TextQuestion,
  YesNoQuestion,
} from "./question.ts";

/** A part of a conversation: yields a question, is given its answer. */
export type Asking<Result> = Generator<RoomQuestion, Result, RoomAnswer>;

type Without<Kind> = Omit<Kind, "kind">;

/*
 * One for each kind, so that what comes back has its type. Whoever runs the conversation gives only answers without a
 * problem, which have the type of the question.
 */

export function* askText(question: Without<TextQuestion>): Asking<string> {
  return (yield { kind: "text", ...question }) as string;
}

export function* askNumber(question: Without<NumberQuestion>): Asking<number> {
  return (yield { kind: "number", ...question }) as number;
}

export function* askYesNo(question: Without<YesNoQuestion>): Asking<boolean> {
  return (yield { kind: "yes-no", ...question }) as boolean;
}

/** A choice. */
export function* askChoice<Value extends string>(
  question: Without<ChoiceQuestion> & { readonly choices: readonly (Choice & { readonly value: Value })[] },
): Asking<Value> {
  return (yield { kind: "choice", ...question }) as Value;
}

/** Several choices. Where there are none, nothing is asked. */
export function* askSeveral<Value extends string>(
  question: Without<SeveralQuestion> & { readonly choices: readonly (Choice & { readonly value: Value })[] },
): Asking<readonly Value[]> {
  if (question.choices.length === 0) return [];
  return (yield { kind: "several", ...question }) as readonly Value[];
}
