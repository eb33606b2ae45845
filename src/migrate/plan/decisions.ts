import { BoothkeepError } from "../../base/errors/index.ts";
import { fitsStarsByPart } from "../../base/text/index.ts";
import {
  type Answer,
  type DecisionAnswer,
  type Decisions,
  nearestName,
  type Question,
  type QuestionOption,
} from "../../model/index.ts";

/**
 * The answer that a decisions file gives to a question, checked against the question; undefined while it is open.
 *
 * @throws BoothkeepError decisions.unknown-option: the question has no such option
 * @throws BoothkeepError decisions.unfit-answer: a text or ids are missing, or name what is not there
 * @throws BoothkeepError decisions.not-accepted: the option weakens protection and the answer does not accept it
 */
export function answerTo(question: Question, decisions: Decisions | undefined): Answer | undefined {
  const given = decisions === undefined ? undefined : givenAnswer(question.id, decisions);
  if (given === undefined || given.optionId === null) return undefined;
  const option = question.options.find(({ id }) => id === given.optionId);
  if (option === undefined) {
    throw new BoothkeepError(
      "decisions.unknown-option",
      `The question '${question.id}' has no option '${given.optionId}'.`,
      {
        place: { id: question.id },
        next: `Choose one of: ${question.options.map(({ id }) => id).join(", ")}.`,
        data: { optionId: given.optionId, options: question.options.map(({ id }) => id) },
      },
    );
  }
  if (option.weakensProtection === true && given.accepts !== "weaker-protection") {
    throw new BoothkeepError(
      "decisions.not-accepted",
      `The option '${option.id}' of '${question.id}' protects less than before, and the answer does not accept that.`,
      {
        place: { id: question.id },
        next: `Choose another option, or add "accepts": "weaker-protection" to the answer: ${option.consequence}`,
      },
    );
  }
  return {
    optionId: option.id,
    ...(given.accepts === undefined ? {} : { accepts: given.accepts }),
    ...(given.note === undefined ? {} : { note: given.note }),
    ...textOf(question, option, given.text),
    ...idsOf(question, option, given.ids),
  };
}

/** The answer whose id is the question's, or else the first whose id has stars that stand for parts of it. */
function givenAnswer(questionId: string, { answers }: Decisions): DecisionAnswer | undefined {
  return (
    answers.find((answer) => answer.questionId === questionId) ??
    answers.find((answer) => fitsStarsByPart(answer.questionId, questionId))
  );
}

/**
 * What of a decisions file has a part in a plan that asks these questions: equal parts give equal plans.
 *
 * @param questionIds every question that the plan asks
 */
export function decisionsFor(questionIds: readonly string[], decisions: Decisions | undefined) {
  const answers = questionIds.map((id) => {
    const given = decisions === undefined ? undefined : givenAnswer(id, decisions);
    if (given === undefined || given.optionId === null) return [id, null];
    const { optionId, text = null, ids = null, accepts = null, note = null } = given;
    return [id, { optionId, text, ids, accepts, note }];
  });
  const { effort = "thorough", connectors = [], labels = [] } = decisions ?? {};
  return { effort, connectors, labels, answers };
}

function textOf(
  question: Question,
  option: QuestionOption,
  text: string | undefined,
): { readonly text?: string } {
  if (option.takes !== "text") return {};
  if (text === undefined) {
    throw unfit(
      question,
      `The option '${option.id}' needs a text.`,
      `Add "text" to the answer: ${option.words}`,
    );
  }
  return { text };
}

function idsOf(
  question: Question,
  option: QuestionOption,
  ids: readonly string[] | undefined,
): { readonly ids?: readonly string[] } {
  if (option.takes !== "ids") return {};
  const candidates = option.candidates ?? [];
  const unique = [...new Set(ids ?? [])];
  const unknown = unique.filter((id) => !candidates.includes(id));
  if (unknown.length > 0) {
    throw unfit(
      question,
      `The answer names ${unknown.map((id) => `'${id}'`).join(", ")}, which cannot be chosen here.`,
      `Choose from: ${candidates.join(", ")}.`,
    );
  }
  if (option.idsCount !== undefined && unique.length !== option.idsCount) {
    throw unfit(
      question,
      `The option '${option.id}' needs ${option.idsCount} ids; the answer names ${unique.length}.`,
      `Choose ${option.idsCount} from: ${candidates.join(", ")}.`,
    );
  }
  return { ids: candidates.filter((id) => unique.includes(id)) };
}

function unfit(question: Question, message: string, next: string): BoothkeepError {
  return new BoothkeepError("decisions.unfit-answer", `Question '${question.id}': ${message}`, {
    place: { id: question.id },
    next,
  });
}

/**
 * Refuses answers to questions that the plan does not ask: a misspelt id would otherwise stay unnoticed.
 *
 * @throws BoothkeepError decisions.unknown-question, decisions.answered-twice
 */
export function checkAnswersAreAsked(decisions: Decisions, questions: readonly Question[]): void {
  const asked = new Set(questions.map(({ id }) => id));
  const isAsked = (id: string) =>
    asked.has(id) || [...asked].some((question) => fitsStarsByPart(id, question));
  const seen = new Set<string>();
  for (const { questionId, optionId, ifAsked } of decisions.answers) {
    if (seen.has(questionId)) {
      throw new BoothkeepError(
        "decisions.answered-twice",
        `The question '${questionId}' is answered twice.`,
        {
          place: { id: questionId },
          next: "Keep one of the two answers.",
        },
      );
    }
    seen.add(questionId);
    if (ifAsked === true || optionId === null || isAsked(questionId)) continue;
    throw notAsked(questionId, [...asked]);
  }
}

/** How many of the questions asked are named in an error. */
const NAMED_MAX = 8;

function notAsked(questionId: string, asked: readonly string[]): BoothkeepError {
  const meant = nearestName(questionId, asked);
  const more = asked.length - NAMED_MAX;
  const named =
    asked.length === 0
      ? "none"
      : `${asked.slice(0, NAMED_MAX).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
  return new BoothkeepError("decisions.unknown-question", `The plan asks no question '${questionId}'.`, {
    place: { id: questionId },
    next: `${
      meant === undefined ? "Correct the id" : `Did you mean '${meant}'? Else correct the id`
    }, take the answer out, or give it "ifAsked": true when it is meant for other screens. Asked are: ${named}.`,
    data: { asked },
  });
}

/**
 * Throws what was wrong with answers: the first fault, and the others by their questions.
 *
 * @throws BoothkeepError decisions.unknown-option, decisions.unfit-answer, decisions.not-accepted
 */
export function throwFaults(faults: readonly BoothkeepError[]): void {
  const [first, ...others] = faults;
  if (first === undefined) return;
  if (others.length === 0) throw first;
  throw new BoothkeepError(first.code, `${faults.length} answers do not fit. The first: ${first.message}`, {
    place: first.place,
    next: `${first.next} Then see to ${others.map(({ place }) => place.id).join(", ")}.`,
    data: { faults: faults.map((fault) => fault.toJSON()) },
  });
}

/** The part of a plan that its decisions file comes from. */
export interface AskingPlan {
  readonly from: { readonly profileId: string };
  readonly to: { readonly profileId: string };
  readonly effort: "quick" | "thorough";
  readonly questions: readonly Question[];
}

/** What the answers of a decisions file start from. */
export interface FillInOptions {
  /** Answers given so far. */
  readonly earlier?: Decisions | undefined;
  /** Questions that only some of the screens ask for which the file is meant. */
  readonly onSome?: ReadonlySet<string>;
  /**
   * Whether what is recommended is filled in already. A recommendation never weakens protection; one that needs a text or
   * ids stays open. @defaultValue false
   */
  readonly asRecommended?: boolean;
}

/**
 * A decisions file to fill in: first every open question with its options in words, then all answers of an earlier file
 * as they stand there, stars and answers for other screens included.
 *
 * @example
 * decisionsToFillIn(plan).answers.filter(({ optionId }) => optionId === null); // what is still open
 */
export function decisionsToFillIn(
  { from, to, effort, questions }: AskingPlan,
  { earlier, onSome, asRecommended = false }: FillInOptions = {},
): Decisions {
  const open = questions.filter(({ answer }) => answer === undefined);
  const { connectors, labels, notes } = earlier ?? {};
  return {
    kind: "boothkeep.decisions",
    schemaVersion: "1.0.0",
    fromProfileId: from.profileId,
    toProfileId: to.profileId,
    effort,
    answers: [
      ...open.map((question) => ({
        questionId: question.id,
        optionId: asRecommended ? recommendedId(question) : null,
        ...(onSome?.has(question.id) === true ? { ifAsked: true } : {}),
        question: question.words,
        choices: question.options.map((option) => choiceWords(question, option)),
      })),
      ...(earlier?.answers ?? []).filter(({ optionId }) => optionId !== null),
    ],
    ...(connectors === undefined ? {} : { connectors }),
    ...(labels === undefined ? {} : { labels }),
    ...(notes === undefined ? {} : { notes }),
  };
}

function recommendedId({ recommended, options }: Question): string | null {
  const option = options.find(({ id }) => id === recommended?.optionId);
  const free = option !== undefined && option.takes === undefined && option.weakensProtection !== true;
  return free ? option.id : null;
}

function choiceWords(question: Question, option: QuestionOption): string {
  const marks = [
    question.recommended?.optionId === option.id ? `recommended: ${question.recommended.reason}` : "",
    option.weakensProtection === true ? 'needs "accepts": "weaker-protection"' : "",
    option.takes === "text" ? 'needs "text"' : "",
    option.takes === "ids" ? `needs "ids" from ${(option.candidates ?? []).join(", ")}` : "",
  ].filter((mark) => mark !== "");
  const tail = marks.length === 0 ? "" : ` (${marks.join("; ")})`;
  return `${option.id}: ${option.words} ${option.consequence}${tail}`;
}
