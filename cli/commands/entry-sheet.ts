import type { Command } from "commander";
import type { Context } from "../context.ts";
import { SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { paperSource } from "../paper-source.ts";
import { PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { formatOption, printReport, type ReportOptions } from "../report-output.ts";

interface EntrySheetOptions extends ReportOptions {
  readonly site?: string;
  readonly screen?: string;
  readonly entry?: string;
  readonly profiles?: string;
}

const HELP = `
For a unit that reads no file: every setting in the order of the signal flow,
each with a box to tick, in the numbers that the unit shows. Print it: an HTML
file prints on A4 or Letter. Of a logbook: the screen's last as-left entry
that can be trusted, or the one that '--entry' names. For a unit of another
model, run 'boothkeep migrate' first. The code on it says which settings it
shows: 'boothkeep match-paper' reads it back.

Exit codes: 0 done, 2 wrong use or unreadable input, 3 the entry cannot be
trusted.

  boothkeep entry-sheet screen.json --out sheet.html
  boothkeep entry-sheet logbook --site lantern-mill --screen screen-1
  boothkeep entry-sheet handover.zip --out sheet.html
${PROFILES_HELP}`;

export function addEntrySheet(program: Command, context: Context): void {
  program
    .command("entry-sheet")
    .summary("print what to key in by hand, with boxes to tick")
    .description("Prints the sheet by which a person keys settings into a unit that reads no file.")
    .argument("<source>", "configuration, handover pack, or folder of a logbook")
    .option(...SITE_OPTION)
    .option(...SCREEN_OPTION)
    .option("--entry <id>", "entry to take, by its id or its first digits")
    .option("--out <file>", "write to a new file instead")
    .addOption(formatOption())
    .option("--json", "print the sheet as one JSON document (as --format json)")
    .option(...PROFILES_OPTION)
    .addHelpText("after", HELP)
    .action((source: string, options: EntrySheetOptions) => print(source, options, context));
}

async function print(source: string, options: EntrySheetOptions, context: Context): Promise<void> {
  const { configuration, ...paper } = await paperSource(source, options, context);
  const { entrySheet } = await import("../../src/public/report.ts");
  const sheet = entrySheet(configuration, paper);
  await printReport(sheet, { ...options, data: sheet }, context);
}
