import { basename, dirname, join } from "node:path";
import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/errors/index.ts";
import type { MigrationState, ScreenMigration } from "../../src/jobs/index.ts";
import type { Decisions } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile, readDocumentFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { fitAll } from "../migrate/eq-workers.ts";
import { migrateMany } from "../migrate/many.ts";
import {
  jsonText,
  type MigrateOptions,
  type MigrationInput,
  namesOf,
  oldProfile,
  writePapers,
} from "../migrate/screen.ts";
import { PROFILES_HELP, PROFILES_OPTION, profileFrom } from "../profiles.ts";
import { progress } from "../progress.ts";

const HELP = `
The plan accounts for every value of the configuration: kept, rounded,
refitted, moved, restaged, lost, or waiting for a decision (asks). Questions
are answered in a decisions file; without one, a file to fill in is written
beside the plan. The new configuration is written only when nothing is open.

Many screens at once: name several files and --into FOLDER. One decisions
file serves all of them; --classes names a file that says which decisions
file serves which screens. Equal equalizers are fitted once. Screens whose
plan is in the folder already are left alone, so a run can be taken up again.

Exit codes: 0 planned and proven, 1 planned, but the proof or the check found
something, 2 wrong use or unreadable input, 4 decisions are missing.

  boothkeep migrate screen.json --to new-model --plan plan.json
  boothkeep migrate screen.json --to new-model --decisions answers.json \\
    --out new.json --sheets papers
  boothkeep migrate screens/*.json --to new-model --classes classes.json \\
    --into planned
${PROFILES_HELP}`;

export function addMigrate(program: Command, context: Context): void {
  program
    .command("migrate")
    .summary("express configurations for another unit")
    .description("Plans how a configuration goes onto another unit, and proves what it will sound like.")
    .argument("<files...>", "configuration of the old unit, or of many")
    .requiredOption("--to <profile>", "new unit, by the id of its profile or a profile file")
    .option("--from <profile>", "old unit (default: as the configuration says)")
    .option("--decisions <file>", "answers to the plan's questions")
    .option("--classes <file>", "which decisions file serves which screens")
    .option("--out <file>", "write the new configuration here")
    .option("--plan <file>", "write the plan here, and beside it a decisions file to fill in")
    .option("--sheets <folder>", "write report, re-patch sheet, entry sheet and proof into this folder")
    .option("--into <folder>", "many screens: write plans and new configurations into this folder")
    .option(...PROFILES_OPTION)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((files: readonly string[], options: MigrateOptions) =>
      options.into === undefined
        ? migrateOne(files, options, context)
        : migrateMany(files, { ...options, into: options.into }, context),
    );
}

async function migrateOne(
  files: readonly string[],
  options: MigrateOptions,
  context: Context,
): Promise<void> {
  const [file, ...others] = files;
  if (file === undefined || others.length > 0 || options.classes !== undefined) {
    throw new BoothkeepError("usage.wrong", "Several screens need a folder to write into.", {
      next: "Add --into FOLDER.",
    });
  }
  const { migrateScreen } = await import("../../src/jobs/index.ts");
  const input = await readInputs(file, options, context);
  const migration = migrateScreen(input.old, input);
  const written = await writeAll(input, migration, options, context);
  if (options.json === true) {
    context.out(JSON.stringify({ ...migration, written }));
  } else {
    const { migrationSummary, renderText } = await import("../../src/report/index.ts");
    const summary = migrationSummary(migration.plan, { names: namesOf(input) });
    context.out(renderText(summary, { columns: context.columns, color: context.color }));
    context.out(endWords(migration, written, options));
  }
  context.exit(EXIT_OF[migration.state]);
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
  const { eqTasks, fitEqualizer, rememberedFits } = await import("../../src/migrate/index.ts");
  const tasks = eqTasks(old, { from, to, decisions });
  const bar = progress(context, "Fitting equalizers", tasks.size < SHOWN_FROM ? 0 : tasks.size);
  const fits = await fitAll(tasks, bar);
  bar.end();
  return { old, from, to, decisions, eqFits: rememberedFits(fitEqualizer, fits) };
}

async function writeAll(
  input: MigrationInput,
  migration: ScreenMigration,
  { out, plan: planFile, sheets }: MigrateOptions,
  context: Context,
): Promise<readonly string[]> {
  const { plan } = migration;
  const written: string[] = [];
  const write = (name: string, content: string) => {
    writeNew(name, content, context.cwd);
    written.push(name);
  };
  if (planFile !== undefined) {
    write(planFile, jsonText(plan));
    if (!plan.decided) {
      const { decisionsToFillIn } = await import("../../src/migrate/index.ts");
      write(besidePlan(planFile), jsonText(decisionsToFillIn(plan, input.decisions)));
    }
  }
  if (out !== undefined && plan.decided) write(out, jsonText(plan.configuration));
  if (sheets !== undefined) {
    written.push(...(await writePapers(input, migration, { folder: sheets, cwd: context.cwd })));
  }
  return written;
}

/** "plan.json" has "plan.decisions.json" beside it. */
function besidePlan(planFile: string): string {
  return join(dirname(planFile), `${basename(planFile).replace(/\.json$/i, "")}.decisions.json`);
}

const EXIT_OF: Readonly<Record<MigrationState, number>> = {
  ready: EXIT_CODE.done,
  differs: EXIT_CODE.found,
  "decisions-missing": EXIT_CODE.decision,
};

const VERDICT_WORDS = {
  equal: "every path is equal.",
  "within-tolerance": "every difference lies within the tolerances.",
  differs: "something differs; read the proof before anything is loaded.",
} as const;

function endWords(
  { plan, proof, errors }: ScreenMigration,
  written: readonly string[],
  options: MigrateOptions,
): string {
  const lines = [
    `Proof: ${VERDICT_WORDS[proof.verdict]}`,
    errors.length === 0
      ? "Check: valid for the new unit."
      : `Check: ${errors.length} errors for the new unit; 'boothkeep validate' tells them.`,
    ...written.map((name) => `Written: ${name}`),
    plan.decided ? "" : nextWords(options),
  ];
  return lines.filter((line) => line !== "").join("\n");
}

function nextWords({ plan, out }: MigrateOptions): string {
  const notWritten = out === undefined ? "" : " The new configuration was not written.";
  return plan === undefined
    ? `Decisions are missing.${notWritten}\nNext: give --plan to get a decisions file to fill in.`
    : `Decisions are missing.${notWritten}\nNext: fill in ${besidePlan(plan)} and give it\nwith --decisions.`;
}
