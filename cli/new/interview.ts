import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { BoothkeepError, type ReportDocument } from "../../src/public/boothkeep.ts";
import {
  type Answered,
  type Answers,
  type BuiltConfiguration,
  buildConfiguration,
  type Known,
  nextQuestion,
  problemOf,
  type RoomQuestion,
  type ScreenDescription,
  withoutLastAnswer,
} from "../../src/public/exchange.ts";
import type { Context } from "../context.ts";
import { errorText } from "../error-text.ts";
import { answerWords, askQuestion } from "./ask-question.ts";
import type { TypedLines } from "./typed-lines.ts";

/** What came out of a conversation, to be written. */
export interface Interviewed {
  readonly description: ScreenDescription;
  readonly built: BuiltConfiguration;
  readonly out: string;
  readonly descriptionOut: string;
}

/** How to answer, said before the first question. */
export const RULES_OF_THE_TALK =
  "One question after another. Enter takes what stands in brackets, '<' goes back, '?' explains, Ctrl-D ends. Nothing is written before the last answer.";

/**
 * Asks for a screen, shows what was answered and what follows from it, and asks where to write it.
 * @returns undefined when the person ended it
 */
export async function interview(
  known: Known,
  lines: TypedLines,
  { out, context }: { readonly out: string | undefined; readonly context: Context },
): Promise<Interviewed | undefined> {
  let answers: Answers = {};
  /** What was answered at any time: a question that is asked again offers it. */
  let given: Answers = {};
  let part = "";
  for (;;) {
    const now = nextQuestion(known, answers);
    if (now.kind === "asks") {
      if (now.question.part !== part) context.err(`\n${heading(now.question.part, context.columns)}`);
      part = now.question.part;
      const reply = await askQuestion(asBefore(now.question, given), lines, context);
      if (reply.kind === "end") return undefined;
      if (reply.kind === "answer") given = { ...given, [now.question.id]: reply.answer };
      answers =
        reply.kind === "back"
          ? withoutLastAnswer(known, answers)
          : { ...answers, [now.question.id]: reply.answer };
      continue;
    }
    part = "";
    const { description } = now;
    const built = tried(description, known, context);
    if (built !== undefined) {
      await showSummary(now.answered, context);
      const written = await askWhere(description, lines, { out, context });
      if (written === "end") return undefined;
      if (written !== "back") return { description, built, ...written };
    }
    answers = withoutLastAnswer(known, answers);
  }
}

/** The question with the earlier answer in place of its default, where that still fits. */
function asBefore(question: RoomQuestion, given: Answers): RoomQuestion {
  const answer = given[question.id];
  return answer === undefined || problemOf(question, answer) !== undefined
    ? question
    : ({ ...question, default: answer } as RoomQuestion);
}

function heading(part: string, columns: number): string {
  return `── ${part} ${"─".repeat(Math.max(2, columns - part.length - 4))}`.slice(0, columns);
}

/** The configuration, or undefined where one cannot be built; why is told, and the last question is asked again. */
function tried(
  description: ScreenDescription,
  { profiles, loudspeakers }: Known,
  context: Context,
): BuiltConfiguration | undefined {
  const profile = profiles.find(({ id }) => id === description.unit.profileId)!;
  try {
    return buildConfiguration({ description, loudspeakers, profile });
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    context.err(`\n${errorText(error, context.columns)}`);
    return undefined;
  }
}

async function showSummary(answered: readonly Answered[], context: Context): Promise<void> {
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const parts = new Map<string, Answered[]>();
  for (const one of answered) parts.set(one.question.part, [...(parts.get(one.question.part) ?? []), one]);
  const report: ReportDocument = {
    title: "What was answered",
    blocks: [...parts].flatMap(([part, own]) => [
      { kind: "heading" as const, level: 3 as const, text: part },
      {
        kind: "facts" as const,
        pairs: own.map(({ question, answer }) => [question.words, answerWords(question, answer)] as const),
      },
    ]),
  };
  context.err(`\n${renderText(report, { columns: context.columns, color: context.color })}`);
}

type Where = Pick<Interviewed, "out" | "descriptionOut">;

async function askWhere(
  { screen }: ScreenDescription,
  lines: TypedLines,
  { out, context }: { readonly out: string | undefined; readonly context: Context },
): Promise<Where | "back" | "end"> {
  const question: RoomQuestion = {
    id: "out",
    part: "The end",
    kind: "text",
    words: "File to write the configuration to ('<' goes back to the last question)",
    help: "A new file. The description is written beside it, so that all of this can be repeated with changes.",
    maxLength: 1000,
    default: out ?? `${screen.siteId}-${screen.screenId}.json`,
    check: (text) =>
      [text, descriptionName(text)]
        .filter((file) => existsSync(resolve(context.cwd, file)))
        .map((file) => `'${file}' exists; nothing is ever written over. Give another name.`)[0],
  };
  const reply = await askQuestion(question, lines, context);
  if (reply.kind !== "answer") return reply.kind;
  const file = String(reply.answer);
  return { out: file, descriptionOut: descriptionName(file) };
}

/** "first.json" has the description "first.description.json". */
function descriptionName(file: string): string {
  return `${file.replace(/\.json$/i, "")}.description.json`;
}
