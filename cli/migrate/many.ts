import { join, resolve } from "node:path";
import { BoothkeepError, EXIT_CODE } from "../../src/base/errors/index.ts";
import type { EqFit, EqTask } from "../../src/migrate/plan/index.ts";
import type { DecisionClasses } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { profileFrom } from "../profiles.ts";
import { progress } from "../progress.ts";
import { ownVersion } from "../version.ts";
import { spread } from "../workers/pool.ts";
import { fitAll } from "./fit-all.ts";
import { type FleetFolder, openFleetFolder } from "./fleet-folder.ts";
import { type FleetState, fleetSummary, type ScreenResult } from "./fleet-summary.ts";
import type { Failure, FleetGround, Settled, Settlement, Survey } from "./fleet-work.ts";
import { writeOpenQuestions } from "./open-questions.ts";
import type { MigrateOptions } from "./screen.ts";

/** Fewer screens than this are done sooner than another worker is started. */
const WORTH_A_WORKER = 10;

type ManyOptions = MigrateOptions & { readonly into: string };

/**
 * Migrates many screens to one model: plans and new configurations go into one folder. Equal equalizers are fitted once,
 * and only for screens whose questions are all decided. A screen that fails does not stop the others. What is done is
 * recorded in the folder, so that a run that was ended in the middle can be taken up again.
 *
 * @throws BoothkeepError usage.wrong; what reading the profile and the decisions throws; output.no-space and the like
 */
export async function migrateMany(
  files: readonly string[],
  options: ManyOptions,
  context: Context,
): Promise<void> {
  if (options.out !== undefined || options.plan !== undefined) {
    throw new BoothkeepError("usage.wrong", "--into takes the place of --out and --plan.", {
      next: "Leave them out.",
    });
  }
  const version = ownVersion();
  const folder = openFleetFolder(resolve(context.cwd, options.into), version);
  const ground: FleetGround = {
    cwd: context.cwd,
    version,
    to: await profileFrom(options.to, { folder: options.profiles, near: files[0] }, context),
    into: options.into,
    sheets: options.sheets,
    from: options.from,
    profiles: options.profiles,
    decisions: options.decisions,
    classes: options.classes,
    recommended: options.recommended === true,
    records: folder.records,
  };
  await checkDecisions(options, context);
  const surveys = await surveyAll(files, ground, context);
  const fits = await fitNeeded(surveys, folder, context);
  const settled = await settleAll(surveys, fits, { ground, folder, context });
  const results = surveys.map((survey) => resultOf(survey, settled));
  const written = await writeOpenQuestions(surveys, ground, context);
  if (options.json === true) context.out(JSON.stringify({ screens: results, written }));
  else context.out(await fleetSummary({ results, written, into: options.into }, context));
  for (const { state } of results) context.exit(EXIT_OF[state]);
}

const EXIT_OF: Readonly<Record<FleetState, number>> = {
  planned: EXIT_CODE.done,
  differs: EXIT_CODE.found,
  "ruled-out": EXIT_CODE.found,
  failed: EXIT_CODE.usage,
  outdated: EXIT_CODE.usage,
  "decisions-missing": EXIT_CODE.decision,
};

/** Reads every decisions file once before anything else: a fault in one would come back from every screen. */
async function checkDecisions({ decisions, classes }: ManyOptions, context: Context): Promise<void> {
  const { dirname } = await import("node:path");
  const read = (file: string) => readDocumentFile(file, "boothkeep.decisions", context);
  if (decisions !== undefined) await read(decisions);
  if (classes === undefined) return;
  const book = await readDocumentFile<DecisionClasses>(classes, "boothkeep.decision-classes", context);
  for (const item of book.classes) {
    const odd = item.screens.find((screen) => !screen.includes("/"));
    if (odd !== undefined) throw noSlash(classes, item.name, odd);
    await read(join(dirname(classes), item.decisions));
  }
}

function noSlash(file: string, name: string, screen: string): BoothkeepError {
  return new BoothkeepError("usage.wrong", `The class '${name}' names '${screen}', which can be no screen.`, {
    place: { file },
    next: "Name screens by site and screen with a slash between: 'site/screen', or 'site/*' for all of a site.",
  });
}

/** What there is to do for each file, in their order; a second file of a screen is refused. */
async function surveyAll(
  files: readonly string[],
  ground: FleetGround,
  context: Context,
): Promise<readonly Survey[]> {
  const bar = progress(context, "Reading", files.length);
  const found = new Map<string, Survey>();
  await spread<"survey">({
    task: "survey",
    setup: ground,
    inputs: files,
    worthWorkers: Math.ceil(files.length / WORTH_A_WORKER),
    onResult: (survey, file) => {
      found.set(file, survey);
      bar.at(found.size);
    },
  });
  bar.end();
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
  folder: FleetFolder,
  context: Context,
): Promise<ReadonlyMap<string, EqFit>> {
  const fits = new Map(folder.fits);
  const missing = new Map<string, EqTask>();
  for (const survey of surveys) {
    if (survey.kind !== "decided") continue;
    for (const [key, task] of survey.tasks) if (!fits.has(key)) missing.set(key, task);
  }
  const bar = progress(context, "Fitting equalizers", missing.size);
  let done = 0;
  await fitAll(missing, (key, fit) => {
    fits.set(key, fit);
    folder.recordFit(key, fit);
    done += 1;
    bar.at(done);
  });
  bar.end();
  return fits;
}

interface Settling {
  readonly ground: FleetGround;
  readonly folder: FleetFolder;
  readonly context: Context;
}

/** Plans, proves and writes every screen that is decided; each is recorded as it comes. */
async function settleAll(
  surveys: readonly Survey[],
  fits: ReadonlyMap<string, EqFit>,
  { ground, folder, context }: Settling,
): Promise<ReadonlyMap<string, Settled>> {
  const tasks = surveys.flatMap((survey): readonly Settlement[] => {
    if (survey.kind !== "decided") return [];
    const own = [...survey.tasks.keys()].map((key) => [key, fits.get(key)!] as const);
    return [{ input: survey.input, fits: new Map(own) }];
  });
  const bar = progress(context, "Planning and proving", tasks.length);
  const settled = new Map<string, Settled>();
  await spread<"settle">({
    task: "settle",
    setup: ground,
    inputs: tasks,
    worthWorkers: Math.ceil(tasks.length / WORTH_A_WORKER),
    asDone: true,
    onResult: (result, { input }) => {
      if (result.kind === "failed") stopWhereNothingCanBeWritten(result.error);
      if (result.kind === "written") {
        const { file: _, ...record } = result.input;
        folder.recordScreen({ ...record, state: result.state, words: result.words });
      }
      settled.set(input.file, result);
      bar.at(settled.size, input.name);
    },
  });
  bar.end();
  return settled;
}

/** A full disk would come back from every screen that follows. */
function stopWhereNothingCanBeWritten({ code, words }: Failure): void {
  if (code !== "output.no-space") return;
  throw new BoothkeepError("output.no-space", words, {
    next: "Run the same command again: what is done stays, and the rest is taken up.",
  });
}

function resultOf(survey: Survey, settled: ReadonlyMap<string, Settled>): ScreenResult {
  if (survey.kind === "failed") return failedResult(survey.file, survey.file, survey.error);
  const { file, name } = survey.kind === "outdated" ? survey : survey.input;
  switch (survey.kind) {
    case "done":
      return { file, name, state: survey.record.state, words: survey.record.words, earlier: true };
    case "outdated":
      return {
        file,
        name,
        state: "outdated",
        words:
          "an earlier run planned it from other input (configuration, profiles, answers or program). Name another folder, or move its files away and take its line out of work/screens.jsonl.",
      };
    case "asks":
    case "ruled-out": {
      const ids = survey.questions.map(({ id }) => id);
      const [state, lead] =
        survey.kind === "asks" ? (["decisions-missing", "open"] as const) : (["ruled-out", "by"] as const);
      return { file, name, state, words: `${lead}: ${someOf(ids)}`, questions: ids };
    }
    case "decided": {
      const result = settled.get(file)!;
      if (result.kind === "failed") return failedResult(file, name, result.error);
      return { file, name, state: result.state, words: result.words };
    }
  }
}

function failedResult(file: string, name: string, { code, words }: Failure): ScreenResult {
  return { file, name, state: "failed", words, code };
}

const IDS_SHOWN = 3;

function someOf(ids: readonly string[]): string {
  const more = ids.length > IDS_SHOWN ? ` and ${ids.length - IDS_SHOWN} more` : "";
  return `${ids.slice(0, IDS_SHOWN).join(", ")}${more}`;
}
