import { type Choice, problemOf, type RoomAnswer, type RoomQuestion } from "./question.ts";

/** An answer as typed, or why it is none. */
export type ReadAnswer =
  | { readonly kind: "answer"; readonly answer: RoomAnswer }
  | { readonly kind: "problem"; readonly words: string };

/** What a typed line answers. An empty line takes the default where there is one. */
export function readAnswer(question: RoomQuestion, line: string): ReadAnswer {
  const text = line.trim();
  const answer = text === "" && question.default !== undefined ? question.default : parsed(question, text);
  if (answer === undefined) {
    const nothing = text === "" ? "Nothing is offered here. " : "";
    return { kind: "problem", words: `${nothing}${unreadable(question)}` };
  }
  const problem = problemOf(question, answer);
  return problem === undefined ? { kind: "answer", answer } : { kind: "problem", words: problem };
}

function parsed(question: RoomQuestion, text: string): RoomAnswer | undefined {
  switch (question.kind) {
    case "text":
      return text;
    case "number":
      return numberIn(text, question.unit);
    case "choice":
      return chosen(question.choices, text);
    case "several":
      return severalIn(question.choices, text);
    case "yes-no":
      return YES_NO.get(text.toLowerCase());
  }
}

const YES_NO = new Map([
  ["y", true],
  ["yes", true],
  ["n", false],
  ["no", false],
]);

/** "12.4", "12,4", "12.4 m", "−3". */
function numberIn(text: string, unit: string): number | undefined {
  const bare = unit !== "" && text.endsWith(unit) ? text.slice(0, -unit.length).trim() : text;
  const plain = bare.replace("\u2212", "-").replace(",", ".");
  return /^[-+]?\d+(\.\d*)?$|^[-+]?\.\d+$/.test(plain) ? Number(plain) : undefined;
}

/** By its number in the list, or by its value. */
function chosen(choices: readonly Choice[], text: string): string | undefined {
  const byValue = choices.find(({ value }) => value.toLowerCase() === text.toLowerCase());
  if (byValue !== undefined) return byValue.value;
  return /^\d{1,3}$/.test(text) ? choices[Number(text) - 1]?.value : undefined;
}

function severalIn(choices: readonly Choice[], text: string): readonly string[] | undefined {
  if (/^(none|-)$/i.test(text)) return [];
  const found = text
    .split(/[\s,]+/)
    .filter((part) => part !== "")
    .map((part) => chosen(choices, part));
  return found.length > 0 && found.every((one) => one !== undefined) ? [...new Set(found)] : undefined;
}

function unreadable(question: RoomQuestion): string {
  switch (question.kind) {
    case "number":
      return question.whole === true ? "A whole number is asked for." : "A number is asked for: 12.4";
    case "choice":
      return `Choose a number from 1 to ${question.choices.length}.`;
    case "several":
      return `Choose numbers from 1 to ${question.choices.length}, with spaces between them, or 'none'.`;
    default:
      return "Answer 'yes' or 'no'.";
  }
}
