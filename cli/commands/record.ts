import { basename } from "node:path";
import { type Command, Option } from "commander";
import type { AttachedFile, Entry, KeptDocument, SharedDocumentFiles } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { readInput } from "../files.ts";
import { atOption, KEY_HELP, KEY_OPTION, localDateTime, signingKey } from "../logbook-options.ts";
import { PROFILES_HELP, PROFILES_OPTION, profileAtHand } from "../profiles.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";

interface RecordOptions {
  readonly reason: Entry["reason"];
  readonly by: string;
  readonly notes?: string;
  readonly attach?: readonly string[];
  readonly fieldMap?: string;
  readonly profiles?: string;
  readonly key?: string;
  readonly at?: string;
  readonly json?: boolean;
}

/** The reasons of schemas/entry.schema.json; tests compare. */
export const REASON_CHOICES = [
  "as-found",
  "as-left",
  "before-swap",
  "after-swap",
  "routine",
  "imported",
  "standard-applied",
  "other",
] as const satisfies readonly Entry["reason"][];

const HELP = `
The configuration must fit its schema; what the rule book says of it does not
matter here, since what was found is recorded as it was found. It names its
site, screen and unit itself. The unit profile is kept with it, once for all
entries, so that the logbook is enough to restore from. When this command has
ended, the entry survives
a power loss. Several may record at once.

Exit codes: 0 recorded, 1 recorded, but something among the screen's earlier
records cannot be trusted, 2 wrong use or not written.

  boothkeep record logbook as-left.json --reason as-left --by "Service team"
${PROFILES_HELP}
${KEY_HELP}`;

export function addRecord(program: Command, context: Context): void {
  program
    .command("record")
    .summary("keep a configuration in the logbook")
    .description("Records a configuration with its circumstances.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<configuration>", "configuration to record")
    .addOption(
      new Option("--reason <reason>", "why it was taken").choices(REASON_CHOICES).makeOptionMandatory(),
    )
    .requiredOption("--by <who>", "person, team or role")
    .option("--notes <text>", "remarks")
    .option("--attach <file...>", "keep a file with it byte for byte: the unit's own export, a photograph")
    .option("--field-map <file>", "keep the map by which the unit's export was read")
    .option(...PROFILES_OPTION)
    .option(...KEY_OPTION)
    .addOption(atOption())
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, file: string, options: RecordOptions) =>
      recordFile(logbook, file, options, context),
    );
}

async function recordFile(
  folder: string,
  file: string,
  options: RecordOptions,
  context: Context,
): Promise<void> {
  const { record } = await import("../../src/public/boothkeep.ts");
  const logbook = await openLogbookFolder(folder, context);
  const { id, entry, findings } = record(logbook, {
    ...(await recorded(file, { folder, options }, context)),
    reason: options.reason,
    recordedAt: options.at ?? localDateTime(context.now()),
    recordedBy: options.by,
    ...(options.notes === undefined ? {} : { notes: options.notes }),
    attachments: (options.attach ?? []).map((path) => attached(path, context)),
    ...signingKey(options.key, context),
  });
  if (options.json === true) {
    context.out(jsonText({ id, entry, findings }));
  } else {
    context.out(
      wrap(
        `Recorded: ${entry.siteId}, ${entry.screenId}, entry ${entry.number}, ${entry.reason.replaceAll("-", " ")}.`,
        context.columns,
      ),
    );
    context.out(`(${id})`);
    for (const { words } of findings) context.err(wrap(`Among earlier records: ${words}`, context.columns));
  }
  if (findings.some((finding) => finding.severity === "error")) context.exit(1);
}

/**
 * The document as it is in the file, of whatever version (it was read and checked in the present one), and the documents that
 * it cannot be used without.
 */
async function recorded(
  file: string,
  { folder, options }: { readonly folder: string; readonly options: RecordOptions },
  context: Context,
): Promise<{ readonly configuration: KeptDocument; readonly documents: SharedDocumentFiles }> {
  const { readConfiguration } = await import("../../src/public/boothkeep.ts");
  const { document, original } = readConfiguration(readInput(file, context.cwd), { file });
  const { profileId } = document.unit;
  const search = { folder: options.profiles, near: file };
  const profile =
    (await profileAtHand(profileId, search, context)) ??
    (await profileAtHand(profileId, { near: folder }, context));
  if (profile === undefined) {
    const words = `The unit profile '${profileId}' is not at hand and is not kept: on a computer without it, nothing can be restored from this entry. Name its folder with --profiles and record again.`;
    context.err(wrap(`boothkeep: ${words}`, context.columns));
  }
  const fieldMap =
    options.fieldMap === undefined
      ? undefined
      : await readDocumentFile(options.fieldMap, "boothkeep.field-map", context);
  return {
    configuration: original.value as KeptDocument,
    documents: {
      profile: profile as unknown as KeptDocument | undefined,
      fieldMap: fieldMap as unknown as KeptDocument | undefined,
    },
  };
}

function attached(path: string, context: Context): AttachedFile {
  return { name: basename(path), bytes: readInput(path, context.cwd) };
}
