import type { Command } from "commander";
import { EXIT_CODE } from "../../src/base/errors/index.ts";
import type { KeptDocument } from "../../src/logbook/entries/index.ts";
import type { Configuration, Confirmation } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { requireScreen } from "../require-screen.ts";
import { openLogbookFolder, restorableEntry } from "../restorable-entry.ts";

interface ConfirmCommandOptions {
  readonly site: string;
  readonly screen: string;
  readonly by: string;
  readonly intended?: string;
  readonly entry?: string;
  readonly notes?: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

const HELP = `
Compares what was read back from the unit with what was to be loaded: the
file that '--intended' names, else the entry that 'boothkeep restore' takes.
Differences within the unit's steps count as equal. What was read back is
recorded as 'after swap' either way; what was to be loaded and the comparison
are attached to it.

Exit codes: 0 the unit holds what was to be loaded, 1 it does not,
2 wrong use or unreadable input, 3 no entry can be trusted.

  boothkeep confirm logbook --site lantern-mill --screen screen-1 \\
    --intended to-load.json --by "Service team" read-back.json
${PROFILES_HELP}`;

export function addConfirm(program: Command, context: Context): void {
  program
    .command("confirm")
    .summary("compare a unit with what was to be loaded, and record both")
    .description("Compares what a unit holds after loading with what was to be loaded, and records both.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<readback>", "configuration as read back from the unit")
    .requiredOption("--site <id>", "site")
    .requiredOption("--screen <id>", "screen of the site")
    .requiredOption("--by <who>", "person, team or role that loaded the unit")
    .option("--intended <file>", "what was to be loaded (default: the last as-left entry that verifies)")
    .option("--entry <id>", "entry that was to be loaded, by its id or its first digits")
    .option("--notes <text>", "remarks to record")
    .option(...PROFILES_OPTION)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, readBack: string, options: ConfirmCommandOptions) =>
      confirm(logbook, readBack, options, context),
    );
}

async function confirm(
  folder: string,
  file: string,
  options: ConfirmCommandOptions,
  context: Context,
): Promise<void> {
  const { confirmReadBack } = await import("../../src/logbook/restore/index.ts");
  const { record } = await import("../../src/logbook/entries/index.ts");
  const logbook = await openLogbookFolder(folder, context);
  const readBack = await readConfigurationFile(file, context);
  requireScreen(readBack, file, options);
  const { configuration, entryId } = await intended(logbook, readBack, options, context);
  const profile = await findProfile(
    readBack.unit.profileId,
    { folder: options.profiles, near: folder },
    context,
  );
  const confirmation = confirmReadBack(configuration, readBack, {
    profile,
    ...(entryId !== undefined && { entryId }),
  });
  const recorded = record(logbook, {
    configuration: readBack as unknown as KeptDocument,
    reason: "after-swap",
    recordedAt: context.now().toISOString(),
    recordedBy: options.by,
    notes: notesOf(confirmation, options.notes),
    attachments: [
      attachment("to-be-loaded.json", configuration),
      attachment("confirmation.json", confirmation),
    ],
  });
  if (options.json === true) {
    context.out(
      JSON.stringify({
        confirmation,
        recorded: { id: recorded.id, entry: recorded.entry },
        findings: recorded.findings,
      }),
    );
  } else {
    const { confirmationReport, renderText } = await import("../../src/report/index.ts");
    const { columns, color } = context;
    const { holdsForFirmware } = await import("../../src/profile/index.ts");
    const outside = !holdsForFirmware(profile, readBack.unit.firmware);
    const report = confirmationReport(confirmation, outside ? { firmwareRange: profile.firmwareRange } : {});
    context.out(renderText(report, { columns, color }));
    context.out(`\nRecorded as entry ${recorded.entry.number}, after swap\n(${recorded.id})`);
  }
  if (confirmation.verdict === "differs") context.exit(EXIT_CODE.found);
}

/**
 * What was to be loaded. An entry was recorded on the unit of that day; loaded into another one it carries that one's
 * serial number and firmware, as 'restore' writes it.
 */
async function intended(
  logbook: Awaited<ReturnType<typeof openLogbookFolder>>,
  readBack: Configuration,
  options: ConfirmCommandOptions,
  context: Context,
): Promise<{ readonly configuration: Configuration; readonly entryId?: string }> {
  if (options.intended !== undefined) {
    return { configuration: await readConfigurationFile(options.intended, context) };
  }
  const { configuration, id } = await restorableEntry(logbook, options);
  const { serial, firmware } = readBack.unit;
  return {
    configuration: { ...configuration, unit: { ...configuration.unit, serial, firmware } },
    entryId: id,
  };
}

function notesOf({ verdict, counts, intended }: Confirmation, notes: string | undefined): string {
  const words = {
    equal: "holds what was to be loaded",
    "within-steps": `holds what was to be loaded; ${counts.withinSteps} numbers rounded to the unit's steps`,
    differs: `does not hold what was to be loaded: ${counts.differing} differences`,
  }[verdict];
  const of = intended.entryId === undefined ? "" : ` (entry ${intended.entryId})`;
  return `Read back after loading: ${words}${of}.${notes === undefined ? "" : `\n${notes}`}`;
}

function attachment(name: string, document: unknown) {
  return { name, bytes: new TextEncoder().encode(`${JSON.stringify(document, null, 2)}\n`) };
}
