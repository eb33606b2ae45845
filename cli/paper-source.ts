import { statSync } from "node:fs";
import { resolve } from "node:path";
import type { Configuration, UnitProfile } from "../src/public/boothkeep.ts";
import { BoothkeepError, EXIT_CODE } from "../src/public/boothkeep.ts";
import type { Entry, PrintedImprint } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";
import { readConfigurationFile } from "./documents.ts";
import { entryOrigin } from "./entry-origin.ts";
import { readInput } from "./files.ts";
import { readPackFile } from "./pack-file.ts";
import { findProfile } from "./profiles.ts";
import { doubtsOnPaper, openLogbookFolder, restorableEntry } from "./restorable-entry.ts";
import { sayNotes } from "./say-notes.ts";

/** Which settings a paper shows. */
export interface PaperSourceOptions {
  readonly site?: string;
  readonly screen?: string;
  readonly entry?: string;
  readonly profiles?: string;
  /** True: what a unit was confirmed to hold after loading counts like as left. */
  readonly confirmed?: boolean;
}

/** What a paper is printed from. */
export interface PaperSource {
  readonly configuration: Configuration;
  readonly profile: UnitProfile;
  /** Names and values that say where the configuration comes from. */
  readonly origin: readonly (readonly [name: string, value: string])[];
  readonly imprint: PrintedImprint;
  /** What has to be read before the paper is used: a read-back that differs. Absent: nothing. */
  readonly warnings?: readonly string[];
}

/**
 * The settings that a paper shows: a configuration's file, the entry of a handover pack (with the unit profile that the
 * pack carries, unless --profiles says where to look), or an entry of a logbook: the one that --entry names, else the
 * screen's last as-left entry that can be trusted.
 */
export async function paperSource(
  source: string,
  options: PaperSourceOptions,
  context: Context,
): Promise<PaperSource> {
  const isFolder = statSync(resolve(context.cwd, source), { throwIfNoEntry: false })?.isDirectory();
  if (isFolder === true) return fromLogbook(source, options, context);
  if (options.site !== undefined || options.screen !== undefined || options.entry !== undefined) {
    throw new BoothkeepError("usage.wrong", `'${source}' is no folder of a logbook.`, {
      next: "Name the logbook's folder, or leave out --site, --screen and --entry.",
    });
  }
  return isPack(source, context) ? fromPack(source, options, context) : fromFile(source, options, context);
}

async function fromLogbook(
  folder: string,
  { site, screen, entry, profiles, confirmed = false }: PaperSourceOptions,
  context: Context,
): Promise<PaperSource> {
  if (site === undefined || screen === undefined) {
    throw new BoothkeepError("usage.wrong", "A logbook has many screens.", {
      next: "Say which: --site ID --screen ID.",
    });
  }
  const wish = { site, screen, ...(entry !== undefined && { entry }), ...(confirmed && { confirmed }) };
  const found = await restorableEntry(await openLogbookFolder(folder, context), wish);
  const { configuration } = found;
  const profile = await findProfile(
    configuration.unit.profileId,
    { folder: profiles, near: folder, entry: found.entry },
    context,
  );
  const { note } = found;
  if (note !== undefined) sayNotes({ notes: [note] }, context);
  const origin = entryOrigin(found);
  const imprint = await entryImprint(found);
  const { unsettledWords } = await import("../src/public/report.ts");
  // Printed all the same: it says so on every page.
  const doubts = await doubtsOnPaper(found, context);
  if (note?.unsettled !== undefined) context.exit(EXIT_CODE.found);
  const differs = note?.unsettled === undefined ? [] : [unsettledWords(note.unsettled)];
  const warnings = [...differs, ...doubts];
  return { configuration, profile, origin, imprint, ...(warnings.length > 0 && { warnings }) };
}

async function fromPack(
  file: string,
  { profiles }: PaperSourceOptions,
  context: Context,
): Promise<PaperSource> {
  const { readConfiguration, readProfile } = await import("../src/public/boothkeep.ts");
  const { canonicalHash, canonicalText } = await import("../src/public/model.ts");
  const pack = await readPackFile(file, context);
  const { document: configuration } = readConfiguration(canonicalText(pack.configuration), { file });
  const profile =
    profiles === undefined
      ? readProfile(canonicalText(pack.profile), { file }).document
      : await findProfile(configuration.unit.profileId, { folder: profiles, near: file }, context);
  const { entry } = pack;
  if (entry === undefined) {
    const settingsSha256 = canonicalHash(pack.configuration);
    return {
      configuration,
      profile,
      origin: fileOrigin(file, settingsSha256),
      imprint: await fileImprint(configuration, settingsSha256),
    };
  }
  const found = { id: canonicalHash(entry), entry };
  return { configuration, profile, origin: entryOrigin(found), imprint: await entryImprint(found) };
}

async function fromFile(
  file: string,
  { profiles }: PaperSourceOptions,
  context: Context,
): Promise<PaperSource> {
  const configuration = await readConfigurationFile(file, context);
  const search = { folder: profiles, near: file };
  const profile = await findProfile(configuration.unit.profileId, search, context);
  const { canonicalHash, readJson } = await import("../src/public/model.ts");
  // Of the file as it is, which a logbook keeps too, not of what an upgrade makes of it.
  const settingsSha256 = canonicalHash(readJson(readInput(file, context.cwd), { file }));
  return {
    configuration,
    profile,
    origin: fileOrigin(file, settingsSha256),
    imprint: await fileImprint(configuration, settingsSha256),
  };
}

function fileOrigin(file: string, settingsSha256: string): PaperSource["origin"] {
  return [
    ["File", file],
    ["SHA-256", settingsSha256.replace(/.{16}(?=.)/g, "$& ")],
  ];
}

/** The code on papers of an entry. */
export async function entryImprint({
  id,
  entry,
}: {
  readonly id: string;
  readonly entry: Entry;
}): Promise<PrintedImprint> {
  const { printedImprint } = await import("../src/public/logbook.ts");
  const { siteId, screenId, number, configuration } = entry;
  return printedImprint({ siteId, screenId, entry: { number, id }, settingsSha256: configuration });
}

/** The code on papers of settings that are in no logbook yet. */
export async function fileImprint(
  { screen: { siteId, screenId } }: Configuration,
  settingsSha256: string,
): Promise<PrintedImprint> {
  const { printedImprint } = await import("../src/public/logbook.ts");
  return printedImprint({ siteId, screenId, settingsSha256 });
}

/** Whether a file starts as a zip does (PKWARE APPNOTE 4.3.7). */
function isPack(file: string, context: Context): boolean {
  const bytes = readInput(file, context.cwd);
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 0x03 && bytes[3] === 0x04;
}
