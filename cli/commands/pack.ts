import { statfsSync } from "node:fs";
import { basename, dirname, resolve } from "node:path";
import { type Command, InvalidArgumentError } from "commander";
import type { Configuration, Logbook, ReadEntry, UnitProfile } from "../../src/public/boothkeep.ts";
import type { HistoryItem, PackContent } from "../../src/public/logbook.ts";
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
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";

interface PackOptions {
  readonly site: string;
  readonly screen: string;
  readonly entry?: string;
  readonly out: string;
  readonly previous: number;
  readonly attachments?: boolean;
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
screen's latest entry that was not withdrawn. On removable media there must be
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
  const { folderStore, readEntry, readConfiguration } = await import("../../src/public/boothkeep.ts");
  const { requireRestorable, readPack, savePack, writePack } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const entry = readEntry(logbook, {
    siteId: options.site,
    screenId: options.screen,
    ...(options.entry === undefined ? {} : { id: options.entry }),
  });
  requireRestorable(entry);
  const configuration = readConfiguration(entry.canonicalText).document;
  const profile = await findProfile(
    configuration.unit.profileId,
    { folder: options.profiles, near: folder },
    context,
  );

  const bytes = await writePack({
    createdAt: options.at ?? localDateTime(context.now()),
    createdBy: options.by ?? entry.entry.recordedBy,
    configuration: entry.configuration,
    profile: profile as unknown as PackContent["profile"],
    entry: entry.entry,
    entrySignatures: entry.signatures,
    previous: await previousEntries(logbook, entry, options.previous),
    ...(await papers(configuration, profile, entry, options.notes)),
    attachments: options.attachments === true ? await attachmentsOf(logbook, entry) : [],
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

/** The sheets and the cautions, as they are printed. */
async function papers(
  configuration: Configuration,
  profile: UnitProfile,
  item: HistoryItem,
  notes: string | undefined,
): Promise<Pick<PackContent, "sheets" | "cautions">> {
  const { cautionBlock, handoverSheet } = await import("../../src/public/report.ts");
  const { renderHtml, renderText } = await import("../../src/public/boothkeep.ts");
  const sheet = handoverSheet(configuration, {
    profile,
    origin: entryOrigin(item),
    imprint: await entryImprint(item),
    ...(notes === undefined ? {} : { notes }),
  });
  const cautions = renderText({ title: "Before you load these settings", blocks: [cautionBlock()] });
  return { sheets: { text: renderText(sheet), html: renderHtml(sheet) }, cautions };
}

/** The entries of the screen from before this one, the nearest last. */
async function previousEntries(
  logbook: Logbook,
  { id, entry }: ReadEntry,
  count: number,
): Promise<NonNullable<PackContent["previous"]>> {
  if (count === 0) return [];
  const { history, readEntry } = await import("../../src/public/boothkeep.ts");
  const { siteId, screenId } = entry;
  const { items } = history(logbook, { siteId, screenId });
  const before = items
    .slice(
      0,
      items.findIndex((item) => item.id === id),
    )
    .slice(-count);
  return before.map((item) => {
    const { configuration } = readEntry(logbook, { id: item.id, siteId, screenId });
    return { entry: item.entry, configuration };
  });
}

async function attachmentsOf(logbook: Logbook, { entry }: ReadEntry) {
  const { readAttachment } = await import("../../src/public/logbook.ts");
  return (entry.attachments ?? []).map(({ name, sha256 }) => ({
    name,
    bytes: readAttachment(logbook, sha256),
  }));
}

function freeBytes(folder: string): number {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
}

function wholeNumber(text: string): number {
  if (/^[0-9]{1,2}$/.test(text)) return Number(text);
  throw new InvalidArgumentError("Give a whole number from 0 to 99.");
}
