import type { Command } from "commander";
import { type Configuration, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { VisitedDocuments, VisitedScreen } from "../../src/public/diff.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { houseStandard, STANDARD_OPTION } from "../house-standard.ts";
import { localDateTime, SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { PROFILES_HELP, PROFILES_OPTION, profileAtHand } from "../profiles.ts";
import { formatOf, formatOption, printReport, type ReportOptions } from "../report-output.ts";
import { requireScreen } from "../require-screen.ts";
import {
  doubtsOnPaper,
  openLogbookFolder,
  type RestorableEntry,
  restorableEntry,
} from "../restorable-entry.ts";
import { sayNotes } from "../say-notes.ts";
import { wrap } from "../wrap.ts";

interface VisitOptions extends ReportOptions {
  readonly site: string;
  readonly screen: string;
  readonly found: string;
  readonly left?: string;
  readonly standard?: string;
  readonly entry?: string;
  readonly by?: string;
  readonly notes?: string;
  readonly profiles?: string;
}

const HELP = `
The report for the exhibitor: what changed since the screen was last left and
what that means, what was done and why, as left, to be signed. As found is
held against the last as-left entry that can be trusted, or the entry that
'--entry' names; as left, where '--left' gives it, against as found.
Records nothing: it ends with the commands that do, which come after it.

Exit codes: 0 found as it was left, 1 something had changed or is off the
standard, 2 wrong use or unreadable input, 3 the entry cannot be trusted.

  boothkeep visit logbook --site lantern-mill --screen screen-1 \\
    --found as-found.json --left as-left.json --out visit.html
  boothkeep visit logbook --site lantern-mill --screen screen-1 \\
    --found as-found.json --standard house-71.json
${PROFILES_HELP}`;

export function addVisit(program: Command, context: Context): void {
  program
    .command("visit")
    .summary("write the report of a service visit")
    .description("Writes the report of a service visit: as found, what was done, as left.")
    .argument("<logbook>", "folder of the logbook")
    .requiredOption(...SITE_OPTION)
    .requiredOption(...SCREEN_OPTION)
    .requiredOption("--found <file>", "configuration as it was found")
    .option("--left <file>", "configuration as it was left (default: as found)")
    .option(...STANDARD_OPTION)
    .option("--entry <id>", "entry to compare with, by its id or its first digits")
    .option("--by <who>", "person, team or role, for the report")
    .option("--notes <text>", "what was done and why, for the report")
    .option("--out <file>", "write to a new file instead")
    .addOption(formatOption())
    .option("--json", "print one JSON document (as --format json)")
    .option(...PROFILES_OPTION)
    .addHelpText("after", HELP)
    .action((logbook: string, options: VisitOptions) => visit(logbook, options, context));
}

async function visit(folder: string, options: VisitOptions, context: Context): Promise<void> {
  const { visitComparisons } = await import("../../src/public/diff.ts");
  const { base, lastLeft, asFound, asLeft, standard } = await readVisit(folder, options, context);
  if (base.note !== undefined) sayNotes({ notes: [base.note] }, context);
  for (const { code, severity, words } of base.findings) {
    const isOfRecords = severity === "error" && !code.startsWith("restore/");
    if (isOfRecords || code === "restore/entry-passed-over") context.err(wrap(words, context.columns));
  }
  const doubts = await doubtsOnPaper(base, context);
  const { found, done } = visitComparisons({ lastLeft, asFound, asLeft, standard });
  const { unsettledWords, visitReport } = await import("../../src/public/report.ts");
  const differs = base.note?.unsettled === undefined ? [] : [unsettledWords(base.note.unsettled)];
  const warnings = [...differs, ...doubts];
  const report = visitReport({
    date: localDateTime(context.now()).slice(0, 10),
    ...(options.by !== undefined && { by: options.by }),
    found,
    ...(done !== undefined && { done }),
    ...(options.notes !== undefined && { notes: options.notes }),
    ...(warnings.length > 0 && { warnings }),
    asLeftBefore: base.configuration,
    asFound: asFound.configuration,
    asLeft: (asLeft ?? asFound).configuration,
  });
  const next = nextCommands(folder, options);
  const since = { id: base.id, entry: base.entry };
  await printReport(report, { ...options, data: { since, found, ...(done && { done }), next } }, context);
  if (formatOf(options) !== "json" || options.out !== undefined) {
    context.err(`\nNext, to keep this visit in the logbook:\n${next.join("\n")}`);
  }
  const off = found.offStandard?.comparison.findings.length ?? 0;
  if (found.findings.length + off > 0 || base.note?.unsettled !== undefined) context.exit(EXIT_CODE.found);
}

async function readVisit(
  folder: string,
  options: VisitOptions,
  context: Context,
): Promise<VisitedDocuments & { readonly base: RestorableEntry }> {
  const read = async (file: string) => {
    const configuration = await readConfigurationFile(file, context);
    requireScreen(configuration, file, options);
    return configuration;
  };
  const found = await read(options.found);
  const left = options.left === undefined ? undefined : await read(options.left);
  const base = await restorableEntry(await openLogbookFolder(folder, context), options);
  const standard =
    options.standard === undefined
      ? undefined
      : await houseStandard(options.standard, found, options.profiles, context);
  const onUnit = async (configuration: Configuration, near: string): Promise<VisitedScreen> => {
    const search = { folder: options.profiles, near, ...(near === folder && { entry: base.entry }) };
    return { configuration, profile: await profileAtHand(configuration.unit.profileId, search, context) };
  };
  return {
    base,
    lastLeft: await onUnit(base.configuration, folder),
    asFound: await onUnit(found, options.found),
    asLeft: left && (await onUnit(left, options.left!)),
    standard,
  };
}

/** The commands that keep the visit, in their order. Nobody should record what was found as what was left unawares. */
function nextCommands(folder: string, { found, left, by }: VisitOptions): readonly string[] {
  const who = by === undefined ? "WHO" : quoted(by);
  const recording = (file: string, reason: string) =>
    `  boothkeep record ${quoted(folder)} \\\n    ${quoted(file)} \\\n    --reason ${reason} --by ${who}`;
  return [recording(found, "as-found"), recording(left ?? "AS-LEFT.json", "as-left")];
}

/** A word for a POSIX shell. */
function quoted(word: string): string {
  return /^[\w./:@%+=,-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
