import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { writeNew } from "../files.ts";
import { entryImprint } from "../paper-source.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION, profileFrom } from "../profiles.ts";
import { openLogbookFolder, type RestorableEntry, restorableEntry } from "../restorable-entry.ts";

interface RestoreOptions {
  readonly site: string;
  readonly screen: string;
  readonly entry?: string;
  readonly out: string;
  readonly unit?: string;
  readonly serial?: string;
  readonly firmware?: string;
  readonly accept?: readonly string[];
  readonly profiles?: string;
  readonly json?: boolean;
}

const HELP = `
Takes the last as-left entry that verifies: records whole, signatures and
policy met, configuration its own and readable. Says which newer ones it passed
over and why. Where a newer one may be missing or damaged, or the screen was
left in two places apart, it stops; '--entry' names the one to take. Where
another model was recorded since, '--unit' has to name the one in the rack.
Checks that the unit is of the same model, that the unit profile holds for its
firmware (a semantic version range) and whether it is the recorded unit, then
writes the file to load and beside it a sheet to work by (FILE with
'.sheet.txt'). Nothing is written when an error was found; '--accept'
overrules restore/entry-withdrawn and restore/firmware-outside-range, nothing
else.

Exit codes: 0 written, 1 not written because the check found something,
2 wrong use or unreadable input, 3 no entry can be trusted, or a newer one may
be missing.

  boothkeep restore logbook --site lantern-mill --screen screen-1 \\
    --serial G28-004519 --firmware 2.4.1 --out to-load.json
${PROFILES_HELP}`;

export function addRestore(program: Command, context: Context): void {
  program
    .command("restore")
    .summary("write what to load into a unit of the same model")
    .description(
      "Chooses a screen's last settings as left, checks them against the unit, writes the file to load.",
    )
    .argument("<logbook>", "folder of the logbook")
    .requiredOption("--site <id>", "site")
    .requiredOption("--screen <id>", "screen of the site")
    .requiredOption("--out <file>", "file to load, to be written")
    .option("--entry <id>", "entry to take, by its id or its first digits")
    .option("--unit <profile>", "model of the unit at hand, by id or profile file (default: as recorded)")
    .option("--serial <number>", "serial number of the unit at hand")
    .option("--firmware <version>", "firmware of the unit at hand")
    .option("--accept <code...>", "finding to overrule, by its code")
    .option(...PROFILES_OPTION)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, options: RestoreOptions) => restore(logbook, options, context));
}

async function restore(folder: string, options: RestoreOptions, context: Context): Promise<void> {
  const { OVERRULABLE_FINDINGS, checkUnit, configurationToLoad, restoreRefusals, sha256 } = await import(
    "../../src/public/logbook.ts"
  );
  const accepted = options.accept ?? [];
  requireAcceptable(accepted, OVERRULABLE_FINDINGS);
  const logbook = await openLogbookFolder(folder, context);
  const entry = await restorableEntry(logbook, options);
  const unit = {
    profile: await profileAtHand(entry, folder, options, context),
    ...(options.serial !== undefined && { serial: options.serial }),
    ...(options.firmware !== undefined && { firmware: options.firmware }),
  };
  const findings = [...entry.findings, ...checkUnit(entry.configuration, unit)];
  const refused = restoreRefusals(findings, accepted).length > 0;
  const configuration = configurationToLoad(entry.configuration, unit);
  const content = `${jsonText(configuration, 2)}\n`;
  const file = { fileName: options.out, fileSha256: sha256(content) };
  const { restoreSheet } = await import("../../src/public/report.ts");
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const sheet = restoreSheet({
    configuration,
    profile: unit.profile,
    entry: entry.entry,
    entryId: entry.id,
    findings,
    ...(!refused && { ...file, imprint: await entryImprint(entry) }),
  });
  const sheetFile = sheetName(options.out);
  if (!refused) {
    writeNew(options.out, content, context.cwd);
    writeNew(sheetFile, renderText(sheet), context.cwd);
  }
  if (options.json === true) {
    const written = refused ? null : { file: options.out, sha256: file.fileSha256, sheet: sheetFile };
    context.out(jsonText({ entryId: entry.id, entry: entry.entry, findings, written }));
  } else {
    context.out(renderText(sheet, { columns: context.columns, color: context.color }));
    if (!refused) context.out(`\nWritten: ${options.out}\nThis sheet: ${sheetFile}`);
  }
  if (refused) context.exit(EXIT_CODE.found);
}

/** "to-load.json" has the sheet "to-load.sheet.txt". */
function sheetName(file: string): string {
  return `${file.replace(/\.json$/i, "")}.sheet.txt`;
}

function profileAtHand(
  { configuration, entry }: RestorableEntry,
  folder: string,
  { unit, profiles }: RestoreOptions,
  context: Context,
) {
  const search = { folder: profiles, near: folder, entry };
  return unit === undefined
    ? findProfile(configuration.unit.profileId, search, context)
    : profileFrom(unit, search, context);
}

function requireAcceptable(accepted: readonly string[], acceptable: readonly string[]): void {
  const wrong = accepted.find((code) => !acceptable.includes(code));
  if (wrong === undefined) return;
  throw new BoothkeepError("usage.wrong", `'${wrong}' cannot be accepted.`, {
    next: `What can be accepted: ${acceptable.join(", ")}.`,
  });
}
