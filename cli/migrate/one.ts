import {
  type Decisions,
  decisionsToFillIn,
  EXIT_CODE,
  type MigrationState,
  migrateScreen,
  renderText,
  type ScreenMigration,
} from "../../src/public/boothkeep.ts";
import {
  type EqFit,
  type EqFits,
  FINAL_PAPERS,
  fitEqualizer,
  type MigratedScreen,
  migrationPapers,
  namesOnPaper,
  namingAnswers,
  rememberedFits,
  setHash,
  surveyMigration,
} from "../../src/public/migrate.ts";
import { jsonText, migrationSummary } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile, readDocumentFile } from "../documents.ts";
import { type NewFile, refuseExisting, writeSet } from "../files.ts";
import { profileFrom } from "../profiles.ts";
import { progress } from "../progress.ts";
import { besidePlan } from "./beside-plan.ts";
import { fitAll } from "./fit-all.ts";
import { migrationOutcome } from "./outcome.ts";
import { jsonFile, type MigrateOptions, oldProfile, paperFileNames, paperFiles } from "./screen.ts";

/** What a migration needs. */
interface MigrationInput extends MigratedScreen {
  readonly decisions: Decisions | undefined;
  readonly eqFits: EqFits;
}

/** Migrates one screen, writes what was asked for, and says what came of it and what to do next. */
export async function migrateOne(file: string, options: MigrateOptions, context: Context): Promise<void> {
  const { out, plan } = options;
  refuseExisting(
    [out, plan].flatMap((name) => name ?? []),
    context.cwd,
  );
  const input = await readInputs(file, options, context);
  const migration = migrateScreen(input.old, input);
  const written = await writeAll(input, migration, options, context);
  const setSha256 = setHash(migration);
  if (options.json === true) {
    context.out(jsonText({ ...migration, setSha256, written }));
  } else {
    const { columns, color } = context;
    const summary = migrationSummary(migration.plan, { names: namesOnPaper(input) });
    context.out(`${renderText(summary, { columns, color })}\n`);
    context.out(migrationOutcome(migration, { options, written, setSha256, columns, color }));
  }
  context.exit(EXIT_OF[migration.state]);
}

const EXIT_OF: Readonly<Record<MigrationState, number>> = {
  ready: EXIT_CODE.done,
  differs: EXIT_CODE.found,
  "ruled-out": EXIT_CODE.found,
  "decisions-missing": EXIT_CODE.decision,
};

/** Fewer equalizers than this are fitted before anybody could read how far it is. */
const SHOWN_FROM = 8;

async function readInputs(file: string, options: MigrateOptions, context: Context): Promise<MigrationInput> {
  const old = await readConfigurationFile(file, context);
  const search = { folder: options.profiles, near: file };
  const to = await profileFrom(options.to, search, context);
  const from = await oldProfile(old.unit.profileId, options, { file, to, context });
  const decisions =
    options.decisions === undefined
      ? undefined
      : await readDocumentFile(options.decisions, "boothkeep.decisions", context);
  const { tasks, questions, ruledOutBy } = namingAnswers(options.decisions, () =>
    surveyMigration(old, { from, to, decisions }),
  );
  const isOpen = questions.some(({ answer }) => answer === undefined);
  refuseExisting(namesToCome(options, { isOpen, isFinal: !isOpen && ruledOutBy.length === 0 }), context.cwd);
  const fits = new Map<string, EqFit>();
  const bar = progress(context, "Fitting equalizers", tasks.size < SHOWN_FROM ? 0 : tasks.size);
  await fitAll(tasks, (key, fit) => {
    fits.set(key, fit);
    bar.at(fits.size);
  });
  bar.end();
  return { old, from, to, decisions, eqFits: rememberedFits(fitEqualizer, fits) };
}

/** Files that must not be there, as far as the questions tell. Drafts have names of their own, see paperPrefix. */
function namesToCome(
  { out, plan, sheets }: MigrateOptions,
  { isOpen, isFinal }: { readonly isOpen: boolean; readonly isFinal: boolean },
): readonly string[] {
  return [
    ...(plan !== undefined && isOpen ? [besidePlan(plan)] : []),
    ...(sheets === undefined ? [] : paperFileNames(isFinal ? FINAL_PAPERS : [FOLDER_PROBE], sheets)),
    ...(out === undefined ? [] : [out]),
  ];
}

/** No paper's name: asks whether the folder can be written. */
const FOLDER_PROBE = "DRAFT";

/** Writes all that was asked for, or nothing; the configuration comes last. */
async function writeAll(
  input: MigrationInput,
  migration: ScreenMigration,
  { out, plan: planFile, sheets, recommended }: MigrateOptions,
  context: Context,
): Promise<readonly string[]> {
  const { plan, state } = migration;
  const files: NewFile[] = [];
  if (planFile !== undefined) {
    files.push({ file: planFile, content: jsonFile(plan) });
    if (state === "decisions-missing") {
      const toFillIn = decisionsToFillIn(plan, {
        earlier: input.decisions,
        asRecommended: recommended === true,
      });
      files.push({ file: besidePlan(planFile), content: jsonFile(toFillIn) });
    }
  }
  if (sheets !== undefined) files.push(...paperFiles(await migrationPapers(input, migration), sheets));
  if (out !== undefined && plan.decided) files.push({ file: out, content: jsonFile(plan.configuration) });
  writeSet(files, context.cwd);
  return files.map(({ file }) => file);
}
