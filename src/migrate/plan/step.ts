import { BoothkeepError } from "../../base/errors/index.ts";
import type {
  Address,
  Answer,
  Cable,
  Configuration,
  Decisions,
  EqFitReport,
  Fold,
  Join,
  Outcome,
  PlanItem,
  PlanPlace,
  Question,
  QuestionOption,
  Staging,
  StepName,
  UnitProfile,
} from "../../model/index.ts";
import { answerTo } from "./decisions.ts";
import type { EqFits } from "./equalizers/eq-task.ts";
import type { Words } from "./words.ts";

/** What a step may know. Everything in it is readonly; a step gives back what it changed. */
export interface StepContext {
  readonly old: Configuration;
  /** The new configuration as the steps before this one left it. */
  readonly next: Configuration;
  readonly from: UnitProfile;
  readonly to: UnitProfile;
  readonly decisions: Decisions | undefined;
  /** Answers that do not fit are put here, so that all of them can be told at once; they count as open. */
  readonly faults: BoothkeepError[];
  /** Addresses of all leaf values of the old configuration. */
  readonly leaves: readonly Address[];
  /** Addresses that the steps before this one have accounted for. */
  readonly claimed: ReadonlySet<Address>;
  readonly words: Words;
  readonly eqFits: EqFits;
}

/** What a step gives back. */
export interface StepResult {
  readonly next: Configuration;
  readonly items?: readonly StepItem[];
  readonly questions?: readonly Question[];
  readonly cables?: readonly Cable[];
  readonly joins?: readonly Join[];
  readonly folds?: readonly Fold[];
  readonly equalizers?: readonly EqFitReport[];
  readonly levels?: Staging;
  readonly delays?: Staging;
}

/** What a part of a step gives back. */
export interface Part {
  readonly next: Configuration;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

/** A part of the migration. Steps run in the order of the list in steps/index.ts. */
export interface Step {
  readonly name: StepName;
  readonly run: (context: StepContext) => StepResult;
}

/** An item before it is put into the plan: claims may name a place, which stands for all values below it. */
export interface StepItem {
  readonly outcome: Outcome;
  readonly place: PlanPlace;
  readonly words: string;
  readonly numbers?: PlanItem["numbers"];
  readonly claims?: readonly Address[];
  /** Places of which it accounts for whatever no item before it did: for something that is left out as a whole. */
  readonly claimsRest?: readonly Address[];
  readonly questionId?: string;
}

/** What was decided on a question, or what holds as long as nobody decided. */
export interface Verdict {
  readonly question: Question;
  readonly option: QuestionOption;
  readonly decided: boolean;
  readonly answer: Answer | undefined;
}

/**
 * Puts a question: the answer of the decisions file, checked, or what holds without one. What does not fit of an answer
 * goes to the faults.
 */
export function ask(context: Asking, question: Question): Verdict {
  const answer = fittingAnswer(context, question);
  const optionId = answer?.optionId ?? question.unanswered.optionId;
  const option = question.options.find(({ id }) => id === optionId);
  if (option === undefined) throw new RangeError(`question ${question.id} has no option ${optionId}`);
  return {
    question: answer === undefined ? question : { ...question, answer },
    option,
    decided: answer !== undefined,
    answer,
  };
}

/** What is needed to put a question. */
export type Asking = Pick<StepContext, "decisions" | "faults">;

function fittingAnswer({ decisions, faults }: Asking, question: Question): Answer | undefined {
  try {
    return answerTo(question, decisions);
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    faults.push(error);
    return undefined;
  }
}

/** The outcome of something that hangs on a question: `asks` until it is decided. */
export function outcomeOf(verdict: Verdict, decided: Outcome): Outcome {
  return verdict.decided ? decided : "asks";
}

/** A list with one item replaced by key. */
export function replaceById<T extends { readonly id: string }>(
  list: readonly T[],
  changed: ReadonlyMap<string, T>,
): readonly T[] {
  return list.map((item) => changed.get(item.id) ?? item);
}
