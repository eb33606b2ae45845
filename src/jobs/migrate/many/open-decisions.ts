import { decisionsToFillIn } from "../../../migrate/plan/index.ts";
import type { Decisions, Question } from "../../../model/index.ts";
import type { AnswersFor, Survey } from "./screen-work.ts";

/** A decisions file to fill in, for all screens that get the same answers. */
export interface OpenDecisions {
  /** The answers that these screens have got so far. */
  readonly answers: AnswersFor;
  /** Their old unit. */
  readonly fromProfileId: string;
  readonly decisions: Decisions;
}

/** The new unit, and the answers to start from. */
export interface OpenDecisionsOptions {
  /** Profile of the new unit. */
  readonly toProfileId: string;
  /** Whether what is recommended is filled in already. */
  readonly asRecommended: boolean;
  /** Reads a decisions file that screens have got. */
  readonly read: (file: string) => Promise<Decisions>;
}

/** Screens that get the same answers, and what they still ask. */
interface Asking {
  readonly answers: AnswersFor;
  readonly fromProfileId: string;
  /** Each question with how many of the screens ask it. */
  readonly questions: Map<string, { readonly question: Question; count: number }>;
  screens: number;
}

/** What screens still ask, as decisions files to fill in: one for all screens of a unit that get the same answers. */
export async function openDecisions(
  surveys: readonly Survey[],
  { toProfileId, asRecommended, read }: OpenDecisionsOptions,
): Promise<readonly OpenDecisions[]> {
  const open: OpenDecisions[] = [];
  for (const { answers, fromProfileId, questions, screens } of groupsOf(surveys)) {
    const earlier = answers.file === undefined ? undefined : await read(answers.file);
    const onSome = [...questions.values()].filter(({ count }) => count < screens);
    const plan = {
      from: { profileId: fromProfileId },
      to: { profileId: toProfileId },
      effort: earlier?.effort ?? ("thorough" as const),
      questions: [...questions.values()].map(({ question }) => question),
    };
    const decisions = decisionsToFillIn(plan, {
      earlier,
      onSome: new Set(onSome.map(({ question }) => question.id)),
      asRecommended,
    });
    open.push({ answers, fromProfileId, decisions });
  }
  return open;
}

function groupsOf(surveys: readonly Survey[]): readonly Asking[] {
  const groups = new Map<string, Asking>();
  for (const survey of surveys) {
    if (survey.kind !== "asks") continue;
    const { answers, input } = survey;
    const { fromProfileId } = input;
    const key = JSON.stringify([answers.name, answers.file, fromProfileId]);
    const group = groups.get(key) ?? { answers, fromProfileId, questions: new Map(), screens: 0 };
    group.screens += 1;
    for (const question of survey.questions) {
      const known = group.questions.get(question.id);
      if (known === undefined) group.questions.set(question.id, { question, count: 1 });
      else known.count += 1;
    }
    groups.set(key, group);
  }
  return [...groups.values()];
}
