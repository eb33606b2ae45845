import { statfsSync } from "node:fs";
import { basename, dirname, resolve } from "node:path";
import { type Command, InvalidArgumentError } from "commander";
import type { Configuration, Logbook, UnitProfile } from "../../src/public/boothkeep.ts";
import { BoothkeepError } from "../../src/public/boothkeep.ts";
import type { CheckedEntry, HistoryItem, OpenScreen, PackContent } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { entryOrigin } from "../entry-origin.ts";
import {
  atOption,
  KEY_HELP,
  KEY_OPTION,
  localDateTime,
  SCREEN_OPTION,
  SITE_OPTION,
  signingKey,
} from "../logbook-options.ts";
import { entryImprint } from "../paper-source.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import {
  doubtsOnPaper,
  openLogbookFolder,
  type RestorableEntry,
  restorableEntry,
} from "../restorable-entry.ts";
import { sayNotes } from "../say-notes.ts";
import { wrap } from "../wrap.ts";

interface PackOptions {
  readonly site: string;
  readonly screen: string;
  readonly entry?: string;
  readonly out: string;
  readonly previous: number;
  readonly attachments?: boolean;
  readonly acceptReadBack?: string;
  readonly by?: string;
  readonly notes?: string;
  readonly key?: string;
  readonly at?: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

const HELP = `
A pack is one zip that the booth keeps: configuration, unit profile, handover
sheet (text and HTML), cautions, a manifest with sizes and SHA-256. Anybody
can open it; 'boothkeep unpack' checks it. Without '--entry' it holds the
screen's last entry as left, or that a unit was confirmed to hold after
loading. While the last read-back of the unit differs from what was to be
loaded, nothing is packed: '--accept-read-back' says why it is nonetheless, and
then every page says so. On removable media there must be
room for it; it is flushed, read back and compared before this command says
done. The system may answer from its own memory: take the medium out, put it
in again and run 'boothkeep unpack' before you leave it in a booth.

Exit codes: 0 done, 2 wrong use or not written, 3 the entry cannot be trusted.

  boothkeep pack logbook --site lantern-mill --screen screen-1 \\
    --out /media/stick/lantern-mill-1.zip
${PROFILES_HELP}
${KEY_HELP}`;

export function addPack(program: Command, context: Context): void {
  program
    .command("pack")
    .summary("make the handover pack that a booth keeps")
    .description("Makes a handover pack of an entry.")
    .argument("<logbook>", "folder of the logbook")
    .requiredOption(...SITE_OPTION)
    .requiredOption(...SCREEN_OPTION)
    .requiredOption("--out <file>", "pack to write (.zip)")
    .option("--entry <id>", "entry to take, by its id or its first digits")
    .option("--previous <number>", "add so many entries from before", wholeNumber, 0)
    .option("--attachments", "add the files that are kept with the entry")
    .option("--accept-read-back <words>", "hand over though the last read-back differs, and why")
    .option("--by <who>", "person, team or role that hands over (default: who recorded the entry)")
    .option("--notes <text>", "remarks for the sheet")
    .option(...PROFILES_OPTION)
    .option(...KEY_OPTION)
    .addOption(atOption())
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, options: PackOptions) => pack(logbook, options, context));
}

async function pack(folder: string, options: PackOptions, context: Context): Promise<void> {
  const { folderStore } = await import("../../src/public/boothkeep.ts");
  const { openScreen } = await import("../../src/public/logbook.ts");
  const { readPack, savePack, writePack } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const chosen = await restorableEntry(logbook, { ...options, confirmed: true });
  const { configuration, note } = chosen;
  if (note !== undefined) sayNotes({ notes: [note] }, context);
  const differs = await warningsOf(chosen, options);
  const warnings = [...differs, ...(await doubtsOnPaper(chosen, context))];
  for (const { code, words } of chosen.findings) {
    if (code === "restore/entry-passed-over") context.err(wrap(words, context.columns));
  }
  const screen = openScreen(logbook, options.site, options.screen);
  const entry = screen.read(chosen.item);
  const profile = await findProfile(
    configuration.unit.profileId,
    { folder: options.profiles, near: folder, entry: entry.entry },
    context,
  );

  const bytes = await writePack({
    createdAt: options.at ?? localDateTime(context.now()),
    createdBy: options.by ?? entry.entry.recordedBy,
    configuration: entry.configuration,
    profile: profile as unknown as PackContent["profile"],
    entry: entry.entry,
    entrySignatures: entry.signatures,
    previous: previousEntries(screen, entry, options.previous),
    ...(await papers({ configuration, profile, item: chosen.item, notes: options.notes, warnings })),
    attachments: await attachmentsOf(logbook, entry, { all: options.attachments === true, profile }),
    ...signingKey(options.key, context),
  });
  const { manifest, signature } = await readPack(bytes);
  const path = resolve(context.cwd, options.out);
  savePack(folderStore(dirname(path)), basename(path), bytes, { freeBytes: freeBytes(dirname(path)) });
  if (options.json === true) {
    context.out(jsonText({ file: options.out, sizeBytes: bytes.length, manifest, signature }));
  } else {
    const { packReport } = await import("../../src/public/report.ts");
    const { renderText } = await import("../../src/public/boothkeep.ts");
    context.out(
      renderText(packReport(manifest, signature), { columns: context.columns, color: context.color }),
    );
    context.out(
      wrap(`Written, read back and compared: ${options.out}, ${bytes.length} bytes.`, context.columns),
    );
  }
}

/**
 * What every page has to say. A unit that is known to hold something else than it should is not handed over without a word.
 * @throws BoothkeepError logbook.read-back-differs
 */
async function warningsOf(
  { note }: RestorableEntry,
  { acceptReadBack }: PackOptions,
): Promise<readonly string[]> {
  if (note?.unsettled === undefined) return [];
  const { unsettledWords } = await import("../../src/public/report.ts");
  const words = unsettledWords(note.unsettled);
  if (acceptReadBack === undefined || acceptReadBack.trim() === "") {
    throw new BoothkeepError("logbook.read-back-differs", `${words} Nothing was packed.`, {
      next: "Load again and confirm ('boothkeep confirm'). To hand over nonetheless, say why: --accept-read-back WORDS; every page then says so.",
    });
  }
  return [words, `Handed over nonetheless: ${acceptReadBack}`];
}

interface PackedPapers {
  readonly configuration: Configuration;
  readonly profile: UnitProfile;
  readonly item: HistoryItem;
  readonly notes: string | undefined;
  readonly warnings: readonly string[];
}

/** The sheets and the cautions, as they are printed. */
async function papers({
  configuration,
  profile,
  item,
  notes,
  warnings,
}: PackedPapers): Promise<Pick<PackContent, "sheets" | "cautions">> {
  const { cautionBlock, handoverSheet } = await import("../../src/public/report.ts");
  const { renderHtml, renderText } = await import("../../src/public/boothkeep.ts");
  const sheet = handoverSheet(configuration, {
    profile,
    origin: entryOrigin({ ...item, item }),
    imprint: await entryImprint(item),
    ...(notes === undefined ? {} : { notes }),
    ...(warnings.length > 0 && { warnings }),
  });
  const first =
    warnings.length === 0 ? [] : [{ kind: "caution" as const, title: "Read this first", items: warnings }];
  const cautions = renderText({
    title: "Before you load these settings",
    blocks: [...first, cautionBlock()],
  });
  return { sheets: { text: renderText(sheet), html: renderHtml(sheet) }, cautions };
}

/** The entries of the screen from before this one, the nearest last. */
function previousEntries(
  { items, read }: OpenScreen,
  { id }: CheckedEntry,
  count: number,
): NonNullable<PackContent["previous"]> {
  if (count === 0) return [];
  const before = items
    .slice(
      0,
      items.findIndex((item) => item.id === id),
    )
    .slice(-count);
  return before.map((item) => ({ entry: item.entry, configuration: read(item).configuration }));
}

/**
 * The files that are kept with the entry, where they are asked for. The unit profile is in every pack already; where the pack
 * has another edition of it, the one that the entry names comes along in any case.
 */
async function attachmentsOf(
  logbook: Logbook,
  { entry }: CheckedEntry,
  { all, profile }: { readonly all: boolean; readonly profile: UnitProfile },
) {
  const { PROFILE_ATTACHMENT, readAttachment } = await import("../../src/public/logbook.ts");
  const { canonicalHash } = await import("../../src/public/model.ts");
  const packed = canonicalHash(profile);
  return (entry.attachments ?? [])
    .filter(({ name, sha256 }) => (name === PROFILE_ATTACHMENT ? sha256 !== packed : all))
    .map(({ name, sha256 }) => ({ name, bytes: readAttachment(logbook, sha256) }));
}

function freeBytes(folder: string): number {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
}

function wholeNumber(text: string): number {
  if (/^[0-9]{1,2}$/.test(text)) return Number(text);
  throw new InvalidArgumentError("Give a whole number from 0 to 99.");
}
