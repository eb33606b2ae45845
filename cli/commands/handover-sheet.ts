import { statSync } from "node:fs";
import { resolve } from "node:path";
import type { Command } from "commander";
import { BoothkeepError } from "../../src/errors/index.ts";
import type { Configuration } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { entryOrigin } from "../entry-origin.ts";
import { SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { formatOption, printReport, type ReportOptions } from "../report-output.ts";
import { openLogbookFolder, restorableEntry } from "../restorable-entry.ts";

interface HandoverSheetOptions extends ReportOptions {
  readonly site?: string;
  readonly screen?: string;
  readonly entry?: string;
  readonly notes?: string;
  readonly profiles?: string;
}

const HELP = `
The sheet that stays in the booth after commissioning: what is set, so that a
person can see that nothing moved. Of a logbook: the screen's last as-left
entry that can be trusted, or the one that '--entry' names.

Exit codes: 0 done, 2 wrong use or unreadable input, 3 the entry cannot be
trusted.

  boothkeep handover-sheet screen.json --out sheet.html
  boothkeep handover-sheet logbook --site lantern-mill --screen screen-1
${PROFILES_HELP}`;

export function addHandoverSheet(program: Command, context: Context): void {
  program
    .command("handover-sheet")
    .summary("print the sheet that stays in the booth")
    .description("Prints the handover sheet of a configuration, or of an entry of a logbook.")
    .argument("<source>", "configuration, or folder of a logbook")
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

interface Sheet {
  readonly configuration: Configuration;
  /** Names and values that say where it comes from. */
  readonly origin: readonly (readonly [name: string, value: string])[];
}

async function print(source: string, options: HandoverSheetOptions, context: Context): Promise<void> {
  const isFolder = statSync(resolve(context.cwd, source), { throwIfNoEntry: false })?.isDirectory();
  const { configuration, origin } = await (isFolder === true
    ? fromLogbook(source, options, context)
    : fromFile(source, options, context));
  const search = { folder: options.profiles, near: source };
  const profile = await findProfile(configuration.unit.profileId, search, context);
  const { handoverSheet } = await import("../../src/report/index.ts");
  const { notes } = options;
  const sheet = handoverSheet(configuration, { profile, origin, ...(notes !== undefined && { notes }) });
  await printReport(sheet, { ...options, data: sheet }, context);
}

async function fromLogbook(folder: string, options: HandoverSheetOptions, context: Context): Promise<Sheet> {
  const { site, screen, entry } = options;
  if (site === undefined || screen === undefined) {
    throw new BoothkeepError("usage.wrong", "A logbook has many screens.", {
      next: "Say which: --site ID --screen ID.",
    });
  }
  const wish = { site, screen, ...(entry !== undefined && { entry }) };
  const found = await restorableEntry(await openLogbookFolder(folder, context), wish);
  return { configuration: found.configuration, origin: entryOrigin(found) };
}

async function fromFile(file: string, options: HandoverSheetOptions, context: Context): Promise<Sheet> {
  if (options.site !== undefined || options.screen !== undefined || options.entry !== undefined) {
    throw new BoothkeepError("usage.wrong", `'${file}' is no folder of a logbook.`, {
      next: "Name the logbook's folder, or leave out --site, --screen and --entry.",
    });
  }
  const configuration = await readConfigurationFile(file, context);
  const { canonicalHash } = await import("../../src/canonical/index.ts");
  const origin = [
    ["File", file],
    ["SHA-256", canonicalHash(configuration).replace(/.{16}(?=.)/g, "$& ")],
  ] as const;
  return { configuration, origin };
}
