import { BoothkeepError } from "../../../base/errors/index.ts";
import { type EqFit, type EqTask, fitEqualizer } from "../../../migrate/plan/index.ts";
import type { Failure } from "./failure.ts";
import type { MigrationRecords } from "./screen-record.ts";
import { type ScreenResult, screenResult } from "./screen-result.ts";
import {
  type ManyGround,
  type ManySources,
  type SettledScreen,
  type Settlement,
  type Survey,
  settleScreen,
  surveyScreen,
} from "./screen-work.ts";

/**
 * Who does the work, on this thread or on many. Each thing that is done is told at once, in any order; what a callback throws
 * ends the work.
 */
export interface MigrationCrew {
  readonly survey: (
    files: readonly string[],
    onResult: (survey: Survey, file: string) => void,
  ) => Promise<void>;
  readonly fit: (
    tasks: ReadonlyMap<string, EqTask>,
    onFit: (key: string, fit: EqFit) => void,
  ) => Promise<void>;
  readonly settle: (
    settlements: readonly Settlement[],
    onResult: (settled: SettledScreen, settlement: Settlement) => void,
  ) => Promise<void>;
}

/** A crew that works on this thread, one screen after the other. */
export function crewOfOne(ground: ManyGround, sources: ManySources): MigrationCrew {
  return {
    survey: async (files, onResult) => {
      for (const file of files) onResult(await surveyScreen(file, ground, sources), file);
    },
    fit: async (tasks, onFit) => {
      for (const [key, task] of tasks) onFit(key, fitEqualizer(task));
    },
    settle: async (settlements, onResult) => {
      for (const settlement of settlements) {
        onResult(await settleScreen(settlement, ground, sources), settlement);
      }
    },
  };
}

/** A stage of the work, in this order. */
export type MigrationStage = "survey" | "fit" | "settle";

/** Shows how far a stage is. */
export interface StageProgress {
  readonly at: (done: number, name?: string) => void;
  readonly end: () => void;
}

/** Who does the work, where it is kept, and how it can be watched and stopped. */
export interface MigrateScreensOptions {
  readonly crew: MigrationCrew;
  readonly records: MigrationRecords;
  readonly onStage?: (stage: MigrationStage, total: number) => StageProgress;
  /** Ends the run; what is recorded stays, and the next run takes it up. */
  readonly signal?: AbortSignal;
}

/** What became of every screen. */
export interface MigratedScreens {
  /** In the order of the files. */
  readonly results: readonly ScreenResult[];
  readonly surveys: readonly Survey[];
}

/**
 * Migrates many screens to one model. Equal equalizers are fitted once, and only for screens whose questions are all decided.
 * A screen that fails does not stop the others. What is done is recorded as it comes, so that a run that was ended in the
 * middle can be taken up again.
 *
 * @throws BoothkeepError output.no-space; and the signal's reason
 */
export async function migrateScreens(
  files: readonly string[],
  { crew, records, onStage = () => SILENT, signal }: MigrateScreensOptions,
): Promise<MigratedScreens> {
  const run: Run = { crew, records, onStage, ended: () => signal?.throwIfAborted() };
  const surveys = await surveyAll(files, run);
  const fits = await fitNeeded(surveys, run);
  const settled = await settleAll(surveys, fits, run);
  return { surveys, results: surveys.map((survey) => screenResult(survey, settled)) };
}

const SILENT: StageProgress = { at: () => {}, end: () => {} };

interface Run {
  readonly crew: MigrationCrew;
  readonly records: MigrationRecords;
  readonly onStage: (stage: MigrationStage, total: number) => StageProgress;
  /** Throws when the run was ended. */
  readonly ended: () => void;
}

/** What there is to do for each file, in their order; a second file of a screen is refused. */
async function surveyAll(
  files: readonly string[],
  { crew, onStage, ended }: Run,
): Promise<readonly Survey[]> {
  ended();
  const progress = onStage("survey", files.length);
  const found = new Map<string, Survey>();
  await crew.survey(files, (survey, file) => {
    ended();
    found.set(file, survey);
    progress.at(found.size);
  });
  progress.end();
  const names = new Set<string>();
  return files.map((file): Survey => {
    const survey = found.get(file)!;
    if (survey.kind === "failed") return survey;
    const { name } = survey.kind === "outdated" ? survey : survey.input;
    if (names.has(name)) return { kind: "failed", file, error: twice(name) };
    names.add(name);
    return survey;
  });
}

function twice(name: string): Failure {
  const words = `Two files are of the same screen, '${name}'. Name one configuration for each screen.`;
  return { code: "usage.wrong", words };
}

/** Fits every equalizer that is needed and was not fitted by an earlier run; each is recorded as it comes. */
async function fitNeeded(
  surveys: readonly Survey[],
  { crew, records, onStage, ended }: Run,
): Promise<ReadonlyMap<string, EqFit>> {
  const fits = new Map(records.fits);
  const missing = new Map<string, EqTask>();
  for (const survey of surveys) {
    if (survey.kind !== "decided") continue;
    for (const [key, task] of survey.tasks) if (!fits.has(key)) missing.set(key, task);
  }
  const progress = onStage("fit", missing.size);
  let done = 0;
  await crew.fit(missing, (key, fit) => {
    fits.set(key, fit);
    records.recordFit(key, fit);
    done += 1;
    progress.at(done);
    ended();
  });
  progress.end();
  return fits;
}

/** Plans, proves and keeps every screen that is decided; each is recorded as it comes. */
async function settleAll(
  surveys: readonly Survey[],
  fits: ReadonlyMap<string, EqFit>,
  { crew, records, onStage, ended }: Run,
): Promise<ReadonlyMap<string, SettledScreen>> {
  const settlements = surveys.flatMap((survey): readonly Settlement[] => {
    if (survey.kind !== "decided") return [];
    const own = [...survey.tasks.keys()].map((key) => [key, fits.get(key)!] as const);
    return [{ input: survey.input, fits: new Map(own) }];
  });
  const progress = onStage("settle", settlements.length);
  const settled = new Map<string, SettledScreen>();
  await crew.settle(settlements, (result, { input }) => {
    if (result.kind === "failed") stopWhereNothingCanBeWritten(result.error);
    if (result.kind === "written") {
      const { file: _, ...record } = result.input;
      records.recordScreen({ ...record, state: result.state, words: result.words });
    }
    settled.set(input.file, result);
    progress.at(settled.size, input.name);
    ended();
  });
  progress.end();
  return settled;
}

/** A full disk would come back from every screen that follows. */
function stopWhereNothingCanBeWritten({ code, words }: Failure): void {
  if (code !== "output.no-space") return;
  throw new BoothkeepError("output.no-space", words, {
    next: "Run the same command again: what is done stays, and the rest is taken up.",
  });
}
