import { printAsIs } from "../../../words/index.ts";
/** What a person may answer. Choices of several come in the order in which they were chosen. */
export type RoomAnswer = string | number | boolean | readonly string[];

/** What every question has. */
export interface Asked {
  /** Stable, unique in a conversation: "screen/temperatureC". */
  readonly id: string;
  /** Part of the conversation: "The room". */
  readonly part: string;
  readonly words: string;
  /** Why it is asked, or where to look, for whoever asks back. */
  readonly help: string;
}

/** A question that is answered with a text. */
export interface TextQuestion extends Asked {
  readonly kind: "text";
  readonly maxLength: number;
  /** Whether nothing may be answered. */
  readonly optional?: boolean;
  /** What it must look like, and how that is said. */
  readonly form?: { readonly pattern: RegExp; readonly words: string };
  /** What is wrong with an answer of the right form; undefined where nothing is. */
  readonly check?: (text: string) => string | undefined;
  readonly default?: string;
}

/** A question that is answered with a number. */
export interface NumberQuestion extends Asked {
  readonly kind: "number";
  /** "m", "°C", "ms"; "" for a count. */
  readonly unit: string;
  /** Both ends are allowed. */
  readonly min: number;
  readonly max: number;
  readonly whole?: boolean;
  readonly default?: number;
}

/** One of the answers to choose from. */
export interface Choice {
  readonly value: string;
  readonly words: string;
}

/** A question with one answer of several. */
export interface ChoiceQuestion extends Asked {
  readonly kind: "choice";
  readonly choices: readonly Choice[];
  readonly default?: string;
  /** Asked even where there is only one choice; else that one is taken without asking. */
  readonly confirm?: boolean;
}

/** Any number of the choices, also none. */
export interface SeveralQuestion extends Asked {
  readonly kind: "several";
  readonly choices: readonly Choice[];
  readonly default: readonly string[];
}

/** A question that is answered with yes or no. */
export interface YesNoQuestion extends Asked {
  readonly kind: "yes-no";
  readonly default: boolean;
}

/** A question about the room; `kind` tells them apart. */
export type RoomQuestion = TextQuestion | NumberQuestion | ChoiceQuestion | SeveralQuestion | YesNoQuestion;

/** What is wrong with an answer, in words for whoever gave it; undefined for an answer that fits. */
export function problemOf(question: RoomQuestion, answer: RoomAnswer): string | undefined {
  switch (question.kind) {
    case "text":
      return typeof answer === "string" ? textProblem(question, answer) : "A text is asked for.";
    case "number":
      return typeof answer === "number" ? numberProblem(question, answer) : "A number is asked for.";
    case "choice":
      return question.choices.some(({ value }) => value === answer)
        ? undefined
        : `Choose a number from 1 to ${question.choices.length}.`;
    case "several":
      return Array.isArray(answer) &&
        new Set(answer).size === answer.length &&
        answer.every((one) => question.choices.some(({ value }) => value === one))
        ? undefined
        : `Choose numbers from 1 to ${question.choices.length}, with spaces between them, or 'none'.`;
    case "yes-no":
      return typeof answer === "boolean" ? undefined : "Answer 'yes' or 'no'.";
  }
}

function textProblem({ maxLength, optional, form, check }: TextQuestion, text: string): string | undefined {
  if (text === "") return optional === true ? undefined : "Something must stand here.";
  if ([...text].length > maxLength) return `At most ${maxLength} characters.`;
  if (form !== undefined && !form.pattern.test(text)) return form.words;
  return check?.(text);
}

function numberProblem({ min, max, whole, unit }: NumberQuestion, value: number): string | undefined {
  if (whole === true && !Number.isInteger(value)) return "A whole number is asked for.";
  if (Number.isFinite(value) && value >= min && value <= max) return undefined;
  return `From ${rangeWords(min, max, unit)}.`;
}

/** "−20 to 60 °C" */
export function rangeWords(min: number, max: number, unit: string): string {
  return `${printAsIs(min)} to ${printAsIs(max)}${unit === "" ? "" : ` ${unit}`}`;
}
