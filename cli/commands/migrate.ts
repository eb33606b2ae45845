import type { Command } from "commander";
import { BoothkeepError } from "../../src/public/boothkeep.ts";
import type { Context } from "../context.ts";
import type { MigrateOptions } from "../migrate/screen.ts";
import { PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";

const HELP = `
The plan accounts for every value of the configuration: kept, rounded,
refitted, moved, restaged, lost, or waiting for a decision (asks). Questions
are answered in a decisions file; while some are open, a file to fill in is
written beside the plan, with the answers given so far. The new configuration
is written only when nothing is open. Nothing is ever written over.

  1. boothkeep migrate screen.json --to new-model --plan plan.json
  2. fill in plan.decisions.json
  3. boothkeep migrate screen.json --to new-model \\
       --decisions plan.decisions.json --out new.json --sheets papers

Many screens at once: name several files and --into FOLDER. One decisions
file serves all of them; --classes names a file that says which decisions
file serves which screens. Equal equalizers are fitted once. A run that was
ended in the middle is taken up again by the same command.

  boothkeep migrate screens/*.json --to new-model --decisions answers.json \\
    --into planned

Exit codes: 0 planned and proven, 1 planned, but the proof or the check found
something, or an answer rules the unit out, 2 wrong use or unreadable input,
4 decisions are missing.
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
    .option("--recommended", "fill what is recommended into the decisions file to fill in")
    .option("--classes <file>", "which decisions file serves which screens")
    .option("--out <file>", "write the new configuration here")
    .option("--plan <file>", "write the plan here, and beside it a decisions file to fill in")
    .option("--sheets <folder>", "write report, re-patch sheet, entry sheet and proof into this folder")
    .option("--into <folder>", "many screens: write plans and new configurations into this folder")
    .option(...PROFILES_OPTION)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action(async (files: readonly string[], options: MigrateOptions) => {
      const { into, ...rest } = options;
      if (into !== undefined) {
        const { migrateMany } = await import("../migrate/many.ts");
        return migrateMany(files, { ...rest, into }, context);
      }
      const [file, ...others] = files;
      if (file === undefined || others.length > 0 || options.classes !== undefined) {
        throw new BoothkeepError("usage.wrong", "Several screens need a folder to write into.", {
          next: "Add --into FOLDER.",
        });
      }
      const { migrateOne } = await import("../migrate/one.ts");
      return migrateOne(file, options, context);
    });
}
