import { canonicalHash, sha256 } from "../../../base/canonical/index.ts";
import {
  decisionsFor,
  type EqFit,
  type EqTask,
  fitEqualizer,
  rememberedFits,
  surveyMigration,
} from "../../../migrate/plan/index.ts";
import {
  type Configuration,
  type Decisions,
  type Question,
  readConfiguration,
  type UnitProfile,
} from "../../../model/index.ts";
import { migrateScreen, type ScreenMigration } from "../migrate-screen.ts";
import type { MigratedScreen } from "../migration-papers.ts";
import { verdictWords } from "../migration-words.ts";
import { namingAnswers } from "../naming-answers.ts";
import { attempt, type FailedScreen } from "./failure.ts";
import type { ScreenInput, ScreenRecord, WrittenState } from "./screen-record.ts";

/** What all screens of a run have in common; plain data. */
export interface ManyGround {
  /** Version of boothkeep: another one may plan otherwise. */
  readonly version: string;
  readonly to: UnitProfile;
  /** Screens that earlier runs have done. */
  readonly records: readonly ScreenRecord[];
}

/** The answers that a screen gets. */
export interface AnswersFor {
  /** Class of the screen; undefined: it gets the answers for all. */
  readonly name: string | undefined;
  /** Decisions file; undefined: there is none. */
  readonly file: string | undefined;
}

type ScreenNames = Pick<ScreenInput, "siteId" | "screenId" | "fromProfileId">;

/** Where a screen's documents come from, and where what is made of it goes. */
export interface ManySources {
  readonly read: (file: string) => Uint8Array;
  /** The profile of the old unit, by its id and the file that names it. */
  readonly profileOf: (id: string, file: string) => Promise<UnitProfile>;
  readonly answersFor: (
    screen: Pick<ScreenInput, "siteId" | "screenId">,
  ) => Promise<{ readonly answers: AnswersFor; readonly decisions: Decisions | undefined }>;
  /** Keeps what a screen came to. The configuration may be loaded only where the state is `ready`. */
  readonly keep: (input: ScreenInput, screen: MigratedScreen, migration: ScreenMigration) => Promise<void>;
}

/** What there is to do for a screen. */
export type Survey =
  | FailedScreen
  | { readonly kind: "done"; readonly input: ScreenInput; readonly record: ScreenRecord }
  | { readonly kind: "outdated"; readonly file: string; readonly name: string }
  | {
      readonly kind: "asks" | "ruled-out";
      readonly input: ScreenInput;
      readonly answers: AnswersFor;
      /** Open questions; when the unit is ruled out, those whose answers do so. */
      readonly questions: readonly Question[];
    }
  | { readonly kind: "decided"; readonly input: ScreenInput; readonly tasks: ReadonlyMap<string, EqTask> };

/** A screen whose questions are decided and whose equalizers are fitted. */
export interface Settlement {
  readonly input: ScreenInput;
  readonly fits: ReadonlyMap<string, EqFit>;
}

/** What became of a screen, or why nothing did. */
export type SettledScreen =
  | FailedScreen
  | {
      readonly kind: "written";
      readonly input: ScreenInput;
      readonly state: WrittenState;
      readonly words: string;
    };

/** Looks what there is to do for a screen; a failure is its result. */
export function surveyScreen(file: string, ground: ManyGround, sources: ManySources): Promise<Survey> {
  return attempt<Survey>(file, async () => {
    const bytes = sources.read(file);
    const fileSha256 = sha256(bytes);
    const earlier = ground.records.findLast((record) => record.fileSha256 === fileSha256);
    if (earlier !== undefined) {
      const { siteId, screenId, fromProfileId, questionIds } = earlier;
      const facts = { file, fileSha256, questionIds, siteId, screenId, fromProfileId };
      const input = await inputOf(facts, ground, sources);
      if (earlier.inputSha256 === input.inputSha256) return { kind: "done", input, record: earlier };
    }
    const old = readConfiguration(bytes, { file }).document;
    const names = namesOf(old);
    const name = nameOf(names);
    if (ground.records.some((record) => record.name === name)) return { kind: "outdated", file, name };
    const { decisions, answers } = await sources.answersFor(names);
    const from = await sources.profileOf(names.fromProfileId, file);
    const options = { from, to: ground.to, decisions };
    const survey = namingAnswers(answers.file, () => surveyMigration(old, options));
    const questionIds = survey.questions.map(({ id }) => id);
    const input = await inputOf({ file, fileSha256, questionIds, ...names }, ground, sources);
    if (survey.ruledOutBy.length > 0) {
      return { kind: "ruled-out", input, answers, questions: survey.ruledOutBy };
    }
    const questions = survey.questions.filter(({ answer }) => answer === undefined);
    if (questions.length > 0) return { kind: "asks", input, answers, questions };
    return { kind: "decided", input, tasks: survey.tasks };
  });
}

/** Plans, proves and keeps a screen that is decided; a failure is its result. */
export function settleScreen(
  { input, fits }: Settlement,
  { to }: ManyGround,
  sources: ManySources,
): Promise<SettledScreen> {
  return attempt<SettledScreen>(input.file, async () => {
    const bytes = sources.read(input.file);
    const old = readConfiguration(bytes, { file: input.file }).document;
    const { decisions } = await sources.answersFor(input);
    const from = await sources.profileOf(input.fromProfileId, input.file);
    const eqFits = rememberedFits(fitEqualizer, fits);
    const migration = migrateScreen(old, { from, to, decisions, eqFits });
    await sources.keep(input, { old, from, to }, migration);
    const state = migration.state === "ready" ? "planned" : "differs";
    return { kind: "written", input, state, words: verdictWords(migration) };
  });
}

async function inputOf(
  facts: Omit<ScreenInput, "name" | "inputSha256">,
  { version, to }: ManyGround,
  sources: ManySources,
): Promise<ScreenInput> {
  const { decisions } = await sources.answersFor(facts);
  const inputSha256 = canonicalHash([
    version,
    facts.fileSha256,
    await sources.profileOf(facts.fromProfileId, facts.file),
    to,
    decisionsFor(facts.questionIds, decisions),
  ]);
  return { ...facts, name: nameOf(facts), inputSha256 };
}

function namesOf({ screen, unit }: Configuration): ScreenNames {
  return { siteId: screen.siteId, screenId: screen.screenId, fromProfileId: unit.profileId };
}

function nameOf({ siteId, screenId }: Pick<ScreenNames, "siteId" | "screenId">): string {
  return `${siteId}.${screenId}`;
}
