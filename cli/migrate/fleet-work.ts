import { dirname, join } from "node:path";
import { canonicalHash, sha256 } from "../../src/base/canonical/index.ts";
import { BoothkeepError } from "../../src/base/errors/index.ts";
import { migrateScreen, type ScreenMigration } from "../../src/jobs/index.ts";
import {
  decisionsFor,
  type EqFit,
  type EqTask,
  fitEqualizer,
  rememberedFits,
  screenClass,
  surveyMigration,
} from "../../src/migrate/plan/index.ts";
import {
  type Configuration,
  type DecisionClasses,
  type Decisions,
  type Question,
  readConfiguration,
  type UnitProfile,
} from "../../src/model/index.ts";
import { proofReport, renderText } from "../../src/report/index.ts";
import { type Context, processContext } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { readInput, writeOnce } from "../files.ts";
import { errorWords } from "./error-words.ts";
import type { ScreenRecord, WrittenState } from "./fleet-folder.ts";
import { naming } from "./naming.ts";
import { jsonText, oldProfile, writePapers } from "./screen.ts";

/** What all screens of a run have in common; goes to worker threads as it is. */
export interface FleetGround {
  readonly cwd: string;
  readonly version: string;
  readonly to: UnitProfile;
  readonly into: string;
  readonly sheets: string | undefined;
  readonly from: string | undefined;
  readonly profiles: string | undefined;
  readonly decisions: string | undefined;
  readonly classes: string | undefined;
  /** Whether a decisions file to fill in holds what is recommended. */
  readonly recommended: boolean;
  /** Screens that earlier runs have done. */
  readonly records: readonly ScreenRecord[];
}

/** Which screen, and what its plan depends on. */
export type ScreenInput = Omit<ScreenRecord, "state" | "words"> & { readonly file: string };

/** The answers that a screen gets. */
export interface AnswersFor {
  /** Class of the screen; undefined: it gets the answers for all. */
  readonly name: string | undefined;
  /** Decisions file; undefined: there is none. */
  readonly file: string | undefined;
}

/** What there is to do for a screen. */
export type Survey =
  | { readonly kind: "failed"; readonly file: string; readonly error: Failure }
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

export type Settled =
  | { readonly kind: "failed"; readonly file: string; readonly error: Failure }
  | {
      readonly kind: "written";
      readonly input: ScreenInput;
      readonly state: WrittenState;
      readonly words: string;
    };

/** An error on its way out of a worker thread. */
export interface Failure {
  readonly code: string;
  readonly words: string;
}

/** The two things that are done for one screen of many; used in worker threads and here. */
export function fleetWork(ground: FleetGround): {
  readonly survey: (file: string) => Promise<Survey>;
  readonly settle: (settlement: Settlement) => Promise<Settled>;
} {
  const context: Context = { ...processContext(), cwd: ground.cwd, err: () => {} };
  const profiles = new Map<string, Promise<UnitProfile>>();
  const profileOf = (id: string, file: string) => {
    const found = profiles.get(id) ?? oldProfile(id, ground, { file, to: ground.to, context });
    profiles.set(id, found);
    return found;
  };
  const decisionsOf = decisionsBook(ground, context);
  const inputOf = async (
    file: string,
    fileSha256: string,
    names: ScreenNames,
    questionIds: readonly string[],
  ): Promise<ScreenInput> => {
    const { decisions } = await decisionsOf(names);
    const inputSha256 = canonicalHash([
      ground.version,
      fileSha256,
      await profileOf(names.fromProfileId, file),
      ground.to,
      decisionsFor(questionIds, decisions),
    ]);
    const name = `${names.siteId}.${names.screenId}`;
    return { file, name, fileSha256, inputSha256, questionIds, ...names };
  };

  return {
    survey: (file) =>
      attempt<Survey>(file, async () => {
        const bytes = readInput(file, ground.cwd);
        const fileSha256 = sha256(bytes);
        const earlier = ground.records.findLast((record) => record.fileSha256 === fileSha256);
        if (earlier !== undefined) {
          const { siteId, screenId, fromProfileId, questionIds } = earlier;
          const names = { siteId, screenId, fromProfileId };
          const input = await inputOf(file, fileSha256, names, questionIds);
          if (earlier.inputSha256 === input.inputSha256) return { kind: "done", input, record: earlier };
        }
        const old = readConfiguration(bytes, { file }).document;
        const names = namesOf(old);
        const name = `${names.siteId}.${names.screenId}`;
        if (ground.records.some((record) => record.name === name)) return { kind: "outdated", file, name };
        const { decisions, answers } = await decisionsOf(names);
        const from = await profileOf(names.fromProfileId, file);
        const options = { from, to: ground.to, decisions };
        const survey = naming(answers.file, () => surveyMigration(old, options));
        const ids = survey.questions.map(({ id }) => id);
        const input = await inputOf(file, fileSha256, names, ids);
        if (survey.ruledOutBy.length > 0) {
          return { kind: "ruled-out", input, answers, questions: survey.ruledOutBy };
        }
        const questions = survey.questions.filter(({ answer }) => answer === undefined);
        if (questions.length > 0) return { kind: "asks", input, answers, questions };
        return { kind: "decided", input, tasks: survey.tasks };
      }),

    settle: ({ input, fits }) =>
      attempt<Settled>(input.file, async () => {
        const bytes = readInput(input.file, ground.cwd);
        const old = readConfiguration(bytes, { file: input.file }).document;
        const { decisions } = await decisionsOf(input);
        const eqFits = rememberedFits(fitEqualizer, fits);
        const from = await profileOf(input.fromProfileId, input.file);
        const options = { from, to: ground.to, decisions, eqFits };
        const migration = migrateScreen(old, options);
        const state = migration.state === "ready" ? "planned" : "differs";
        const at = (ending: string) => join(ground.into, `${input.name}${ending}`);
        writeOnce(at(".json"), jsonText(migration.plan.configuration), ground.cwd);
        writeOnce(at(".plan.json"), `${JSON.stringify(migration.plan)}\n`, ground.cwd);
        if (migration.proof.verdict === "differs") {
          writeOnce(at(".proof.txt"), renderText(proofReport(migration.proof)), ground.cwd);
        }
        if (ground.sheets !== undefined) {
          const folder = join(ground.sheets, input.name);
          const write = (name: string, text: string) => writeOnce(name, text, ground.cwd);
          await writePapers({ old, ...options }, migration, { folder, write });
        }
        return { kind: "written", input, state, words: verdictWords(migration) };
      }),
  };
}

type ScreenNames = Pick<ScreenInput, "siteId" | "screenId" | "fromProfileId">;

function namesOf({ screen, unit }: Configuration): ScreenNames {
  return { siteId: screen.siteId, screenId: screen.screenId, fromProfileId: unit.profileId };
}

/** Finds the decisions of a screen: by its class, else those for all. */
function decisionsBook({ decisions, classes }: FleetGround, context: Context) {
  const known = new Map<string, Promise<Decisions>>();
  const read = (file: string) => {
    const found = known.get(file) ?? readDocumentFile<Decisions>(file, "boothkeep.decisions", context);
    known.set(file, found);
    return found;
  };
  const book =
    classes === undefined
      ? undefined
      : readDocumentFile<DecisionClasses>(classes, "boothkeep.decision-classes", context);
  // Whoever asks gets the error; nobody asking is no reason to end the process.
  book?.catch(() => {});
  return async (screen: Pick<ScreenInput, "siteId" | "screenId">) => {
    const found = screenClass(screen, (await book)?.classes ?? []);
    const file = found === undefined ? decisions : join(dirname(classes!), found.decisions);
    const answers: AnswersFor = { name: found?.name, file };
    return { answers, decisions: file === undefined ? undefined : await read(file) };
  };
}

function verdictWords(migration: ScreenMigration): string {
  const { proof, errors, unfounded } = migration;
  if (proof.verdict === "differs") return "the proof finds differences";
  if (unfounded.length > 0) return unfounded.join(" ");
  if (errors.length > 0) return errorWords(migration);
  return proof.verdict === "equal" ? "equal" : "within tolerance";
}

type FailedOne = Extract<Survey & Settled, { readonly kind: "failed" }>;

/** Does something for one screen; whatever goes wrong becomes its result, so that the others go on. */
async function attempt<Result>(file: string, work: () => Promise<Result>): Promise<Result | FailedOne> {
  try {
    return await work();
  } catch (error) {
    const known = error instanceof BoothkeepError;
    const failure = known
      ? { code: error.code, words: knownWords(error, file) }
      : { code: "defect", words: `boothkeep itself failed here (${String(error)}). Please report it.` };
    return { kind: "failed", file, error: failure };
  }
}

function knownWords({ message, next, place }: BoothkeepError, file: string): string {
  const elsewhere = place.file === undefined || place.file === file ? "" : ` (file ${place.file})`;
  return `${message}${elsewhere} ${next}`;
}
