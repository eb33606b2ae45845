import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { BoothkeepError, EXIT_CODE } from "../../src/base/errors/index.ts";
import { jsonText } from "../../src/base/text/index.ts";
import {
  type MigratedScreen,
  type MigrationState,
  migrateScreen,
  migrationPapers,
  namesOnPaper,
  namingAnswers,
  type ScreenMigration,
} from "../../src/jobs/index.ts";
import {
  decisionsToFillIn,
  type EqFit,
  type EqFits,
  fitEqualizer,
  rememberedFits,
  surveyMigration,
} from "../../src/migrate/plan/index.ts";
import type { Decisions } from "../../src/model/index.ts";
import { migrationSummary, renderText } from "../../src/report/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile, readDocumentFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { profileFrom } from "../profiles.ts";
import { progress } from "../progress.ts";
import { besidePlan } from "./beside-plan.ts";
import { fitAll } from "./fit-all.ts";
import { migrationOutcome } from "./outcome.ts";
import { jsonFile, type MigrateOptions, oldProfile, writePapers } from "./screen.ts";

/** What a migration needs. */
interface MigrationInput extends MigratedScreen {
  readonly decisions: Decisions | undefined;
  readonly eqFits: EqFits;
}

/** Migrates one screen, writes what was asked for, and says what came of it and what to do next. */
export async function migrateOne(file: string, options: MigrateOptions, context: Context): Promise<void> {
  refuseExisting(options, context);
  const input = await readInputs(file, options, context);
  const migration = migrateScreen(input.old, input);
  const written = await writeAll(input, migration, options, context);
  if (options.json === true) {
    context.out(jsonText({ ...migration, written }));
  } else {
    const { columns, color } = context;
    const summary = migrationSummary(migration.plan, { names: namesOnPaper(input) });
    context.out(`${renderText(summary, { columns, color })}\n`);
    context.out(migrationOutcome(migration, { options, written, columns, color }));
  }
  context.exit(EXIT_OF[migration.state]);
}

const EXIT_OF: Readonly<Record<MigrationState, number>> = {
  ready: EXIT_CODE.done,
  differs: EXIT_CODE.found,
  "ruled-out": EXIT_CODE.found,
  "decisions-missing": EXIT_CODE.decision,
};

/** Before anything is computed: nothing is ever written over. */
function refuseExisting({ out, plan }: MigrateOptions, { cwd }: Context): void {
  const there = [out, plan].find((file) => file !== undefined && existsSync(resolve(cwd, file)));
  if (there === undefined) return;
  throw new BoothkeepError("output.exists", `'${there}' exists; nothing is ever written over.`, {
    place: { file: there },
    next: "Give another name, or move the old file away.",
  });
}

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
      : await readDocumentFile<Decisions>(options.decisions, "boothkeep.decisions", context);
  const { tasks } = namingAnswers(options.decisions, () => surveyMigration(old, { from, to, decisions }));
  const fits = new Map<string, EqFit>();
  const bar = progress(context, "Fitting equalizers", tasks.size < SHOWN_FROM ? 0 : tasks.size);
  await fitAll(tasks, (key, fit) => {
    fits.set(key, fit);
    bar.at(fits.size);
  });
  bar.end();
  return { old, from, to, decisions, eqFits: rememberedFits(fitEqualizer, fits) };
}

async function writeAll(
  input: MigrationInput,
  migration: ScreenMigration,
  { out, plan: planFile, sheets, recommended }: MigrateOptions,
  context: Context,
): Promise<readonly string[]> {
  const { plan, state } = migration;
  const written: string[] = [];
  const write = (name: string, content: string) => {
    writeNew(name, content, context.cwd);
    written.push(name);
  };
  if (planFile !== undefined) {
    write(planFile, jsonFile(plan));
    if (state === "decisions-missing") {
      const toFillIn = decisionsToFillIn(plan, {
        earlier: input.decisions,
        asRecommended: recommended === true,
      });
      write(besidePlan(planFile), jsonFile(toFillIn));
    }
  }
  if (out !== undefined && plan.decided) write(out, jsonFile(plan.configuration));
  if (sheets !== undefined) writePapers(await migrationPapers(input, migration), { folder: sheets, write });
  return written;
}
