import type { Command } from "commander";
import type { Context } from "../context.ts";
import { SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { paperSource } from "../paper-source.ts";
import { PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { formatOption, printReport, type ReportOptions } from "../report-output.ts";

interface HandoverSheetOptions extends ReportOptions {
  readonly site?: string;
  readonly screen?: string;
  readonly entry?: string;
  readonly notes?: string;
  readonly profiles?: string;
}

const HELP = `
The sheet that stays in the booth after commissioning: what is set, so that a
person can see that nothing moved. Of a logbook: the screen's last entry as
left, or that a unit was confirmed to hold after loading, or the one that
'--entry' names. The code on it says which settings it shows: 'boothkeep
match-paper' reads it back.

Exit codes: 0 done, 1 printed, but the last read-back of the unit differs,
which every page says, 2 wrong use or unreadable input, 3 the entry cannot be
trusted.

  boothkeep handover-sheet screen.json --out sheet.html
  boothkeep handover-sheet logbook --site lantern-mill --screen screen-1
${PROFILES_HELP}`;

export function addHandoverSheet(program: Command, context: Context): void {
  program
    .command("handover-sheet")
    .summary("print the sheet that stays in the booth")
    .description("Prints the handover sheet of a configuration, a pack or an entry of a logbook.")
    .argument("<source>", "configuration, handover pack, or folder of a logbook")
    .option(...SITE_OPTION)
    .option(...SCREEN_OPTION)
    .option("--entry <id>", "entry to take, by its id or its first digits")
    .option("--notes <text>", "remarks for the sheet")
    .option("--out <file>", "write to a new file instead")
    .addOption(formatOption())
    .option("--json", "print the sheet as one JSON document (as --format json)")
    .option(...PROFILES_OPTION)
    .addHelpText("after", HELP)
    .action((source: string, options: HandoverSheetOptions) => print(source, options, context));
}

async function print(source: string, options: HandoverSheetOptions, context: Context): Promise<void> {
  const { configuration, ...paper } = await paperSource(source, { ...options, confirmed: true }, context);
  const { handoverSheet } = await import("../../src/public/report.ts");
  const { notes } = options;
  const sheet = handoverSheet(configuration, { ...paper, ...(notes !== undefined && { notes }) });
  await printReport(sheet, { ...options, data: sheet }, context);
}
