import type { EqFits } from "../../../migrate/plan/index.ts";
import type {
  Configuration,
  FittedItem,
  FittingOption,
  FittingQuestion,
  StandardDecisions,
  UnitProfile,
} from "../../../model/index.ts";
import { answerAt, type GivenAnswer } from "../answers.ts";
import type { CompiledStandard } from "../compile.ts";

/** What fitting may know. */
export interface FitContext {
  /** The screen as it is. */
  readonly screen: Configuration;
  readonly standard: CompiledStandard;
  /** The screen's unit. */
  readonly profile: UnitProfile;
  readonly decisions?: StandardDecisions | undefined;
  /** Where EQ fits come from; shared by many screens, equal ones are computed once. */
  readonly eqFits: EqFits;
}

/** A question with what was decided. */
export interface FitVerdict {
  readonly question: FittingQuestion;
  /** Whether nobody has decided yet. Then nothing is proposed to be loaded. */
  readonly isOpen: boolean;
  /** What was decided; while it is open what loses least, so that what follows from it can be asked in the same round. */
  readonly option: FittingOption;
  /** What the answer names, of an option that asks for it. */
  readonly ids: readonly string[];
  /** Position of the answer that was used. */
  readonly answerIndex: number | undefined;
}

/** Every question's key begins so; no place of a configuration does. */
export const FITTING = "fitting";

/** Puts a question. An answer that does not fit this screen leaves it open and is told. */
export function askFit(
  { screen, decisions }: Pick<FitContext, "screen" | "decisions">,
  question: Omit<FittingQuestion, "chosen" | "note" | "unfit">,
): FitVerdict {
  const given = answerAt(decisions, question.place.split("/"), screen.screen);
  const { options, recommended } = question;
  const leastLoss = options.find(({ id }) => id === recommended) ?? options[0]!;
  const open = { isOpen: true, option: leastLoss, ids: [] };
  if (given === undefined || isForValues(given)) {
    return { question: { ...question, chosen: null }, ...open, answerIndex: undefined };
  }
  const option = options.find(({ id }) => id === given.choose);
  const unfit = option === undefined ? otherOption(question, given) : unfitAnswer(option, given);
  if (option === undefined || unfit !== undefined) {
    const told = unfit === undefined ? {} : { unfit };
    return { question: { ...question, chosen: null, ...told }, ...open, answerIndex: given.index };
  }
  const note = given.note === undefined ? {} : { note: given.note };
  return {
    question: { ...question, chosen: option.id, ...note },
    isOpen: false,
    option,
    ids: given.ids ?? [],
    answerIndex: given.index,
  };
}

/** An answer whose stars also fit places of values, and that is meant for those. */
function isForValues({ place, choose }: GivenAnswer): boolean {
  return !place.startsWith(`${FITTING}/`) && ["standard", "screen", "nearest"].includes(choose ?? "");
}

function otherOption({ options }: Pick<FittingQuestion, "options">, { choose }: GivenAnswer): string {
  return `The answer '${choose}' is none of ${options.map(({ id }) => id).join(", ")}.`;
}

function unfitAnswer(option: FittingOption, given: GivenAnswer): string | undefined {
  if (option.weakensProtection === true && given.accepts !== "weaker-protection") {
    return `'${option.id}' protects less than before: add "accepts": "weaker-protection" to the answer.`;
  }
  if (option.idsCount === undefined) return undefined;
  const ids = new Set(given.ids ?? []);
  const unknown = [...ids].filter((id) => option.candidates?.includes(id) !== true);
  if (unknown.length > 0) return `The answer names ${unknown.join(", ")}, which cannot be chosen here.`;
  if (ids.size !== option.idsCount) {
    return `'${option.id}' needs "ids" with ${option.idsCount} of: ${(option.candidates ?? []).join(", ")}.`;
  }
  return undefined;
}

/** What a stage of fitting gives back. */
export interface FitStage {
  readonly configuration: Configuration;
  readonly items: readonly FittedItem[];
  readonly verdicts: readonly FitVerdict[];
}
