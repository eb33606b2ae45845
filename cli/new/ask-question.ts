import { type RoomAnswer, type RoomQuestion, rangeWords, readAnswer } from "../../src/public/exchange.ts";
import { harmless } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { wrap } from "../wrap.ts";
import type { TypedLines } from "./typed-lines.ts";

/** What came of a question: an answer, the wish to go back, or the end of input. */
export type Reply =
  | { readonly kind: "answer"; readonly answer: RoomAnswer }
  | { readonly kind: "back" }
  | { readonly kind: "end" };

const BACK = "<";
const EXPLAIN = "?";

/** Shows a question and asks until the answer fits. */
export async function askQuestion(
  question: RoomQuestion,
  lines: TypedLines,
  context: Context,
): Promise<Reply> {
  const { err, columns } = context;
  err(["", ...questionLines(question, columns)].join("\n"));
  for (;;) {
    const line = await lines.next(promptOf(question));
    if (line === undefined) return { kind: "end" };
    if (line.trim() === BACK) return { kind: "back" };
    if (line.trim() === EXPLAIN) {
      err(hanging("  ", question.help, columns));
      continue;
    }
    const read = readAnswer(question, line);
    if (read.kind === "answer") return read;
    err(hanging("  ", read.words, columns));
  }
}

function questionLines(question: RoomQuestion, columns: number): readonly string[] {
  const words = wrap(harmless(`${question.words}${limitsOf(question)}`), columns);
  if (question.kind !== "choice" && question.kind !== "several") return [words];
  return [
    words,
    ...question.choices.map((choice, index) =>
      hanging(`${String(index + 1).padStart(4)}  `, choice.words, columns),
    ),
  ];
}

/** A text behind a mark, its later lines as far in as the first. */
function hanging(mark: string, text: string, columns: number): string {
  const lines = wrap(harmless(text), columns - mark.length, "").split("\n");
  return lines.map((line, index) => (index === 0 ? mark : " ".repeat(mark.length)) + line).join("\n");
}

function limitsOf(question: RoomQuestion): string {
  switch (question.kind) {
    case "number":
      return ` (${rangeWords(question.min, question.max, question.unit)})`;
    case "several":
      return " (several with spaces between, or 'none')";
    case "yes-no":
      return " (yes or no)";
    default:
      return "";
  }
}

/** "[21 °C] > " where there is a default, else "> ". */
function promptOf(question: RoomQuestion): string {
  const offered = defaultWords(question);
  return offered === undefined ? "> " : `[${harmless(offered)}] > `;
}

function defaultWords(question: RoomQuestion): string | undefined {
  switch (question.kind) {
    case "number":
      return question.default === undefined
        ? undefined
        : `${String(question.default).replace("-", "\u2212")}${question.unit === "" ? "" : ` ${question.unit}`}`;
    case "choice": {
      const at = question.choices.findIndex(({ value }) => value === question.default);
      return at < 0 ? undefined : String(at + 1);
    }
    case "several": {
      const numbers = question.choices.flatMap(({ value }, index) =>
        question.default.includes(value) ? [String(index + 1)] : [],
      );
      return numbers.length === 0 ? "none" : numbers.join(" ");
    }
    case "yes-no":
      return question.default ? "yes" : "no";
    case "text":
      return question.default === "" ? "none" : question.default;
  }
}

/** An answer as the summary shows it. */
export function answerWords(question: RoomQuestion, answer: RoomAnswer): string {
  const choiceWords = (value: string) =>
    "choices" in question
      ? (question.choices.find((choice) => choice.value === value)?.words ?? value)
      : value;
  if (typeof answer === "boolean") return answer ? "yes" : "no";
  if (typeof answer === "number") {
    const unit = question.kind === "number" && question.unit !== "" ? ` ${question.unit}` : "";
    return `${String(answer).replace("-", "\u2212")}${unit}`;
  }
  if (typeof answer === "string") return answer === "" ? "none" : choiceWords(answer);
  return answer.length === 0 ? "none" : answer.map(choiceWords).join(", ");
}
