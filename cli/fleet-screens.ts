import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { BoothkeepError } from "../src/base/errors/index.ts";
import type { AppliedStandard, Snapshot } from "../src/fleet/standard/index.ts";
import type { HistoryItem, Logbook, LogbookScreen } from "../src/logbook/entries/index.ts";
import type { Configuration, Standard } from "../src/model/index.ts";
import { type CheckInput, checkInputs } from "./check-inputs.ts";
import type { Context } from "./context.ts";
import { openLogbookFolder } from "./restorable-entry.ts";

/** One screen of many, as it stands. */
export interface FleetScreen {
  /** "lantern-mill/screen-1" */
  readonly name: string;
  readonly configuration: Configuration;
  /** The file or folder beside which unit profiles are looked for. */
  readonly near: string;
  /** Its entries, where it comes from a logbook. */
  readonly snapshots?: readonly Snapshot[];
  /** Standards that were applied to it, where it comes from a logbook; read when they are asked for. */
  readonly applied?: () => readonly AppliedStandard[];
  /** The standard that it followed last, as confirmed by reading back. */
  readonly followed?: Standard;
}

/** A screen that is read when it is asked for, so that a fleet is never in memory as a whole. */
export interface FleetPlace {
  /** As told to the user. */
  readonly where: string;
  /** Undefined where there is nothing to hold against a standard: another kind of document, a screen without entries. */
  readonly read: () => Promise<FleetScreen | undefined>;
}

/**
 * The screens behind what a user names: documents, packs, folders, logbooks with the latest entry of each screen.
 * @throws BoothkeepError input.*, pack.*, logbook.*
 */
export async function fleetPlaces(
  files: readonly string[],
  context: Context,
): Promise<readonly FleetPlace[]> {
  const places: FleetPlace[] = [];
  for (const file of files) {
    const isLogbook = existsSync(join(resolve(context.cwd, file), "logbook.json"));
    if (isLogbook) places.push(...(await logbookPlaces(file, context)));
    else {
      for await (const input of checkInputs(file, context)) {
        places.push({ where: input.name, read: () => documentScreen(input) });
      }
    }
  }
  return places;
}

/** The screen of a document; undefined for a document of another kind. */
export async function documentScreen({
  name,
  content,
  near,
  found,
}: CheckInput): Promise<FleetScreen | undefined> {
  const { inspectDocument, readConfiguration } = await import("../src/model/index.ts");
  try {
    if (inspectDocument(content, { file: name }).kind !== "boothkeep.configuration") return undefined;
  } catch (error) {
    // In a folder, a JSON file that is none of ours is nobody's mistake.
    if (found && error instanceof BoothkeepError && error.code === "document.wrong-kind") return undefined;
    throw error;
  }
  const configuration = readConfiguration(content, { file: name }).document;
  return { name: nameOf(configuration), configuration, near };
}

async function logbookPlaces(folder: string, context: Context): Promise<readonly FleetPlace[]> {
  const { logbookScreens, readAttachment } = await import("../src/logbook/entries/index.ts");
  const { STANDARD_ATTACHMENT } = await import("../src/jobs/index.ts");
  const { readDocument } = await import("../src/model/index.ts");
  const logbook = await openLogbookFolder(folder, context);
  const followedBy = (items: readonly HistoryItem[]): Standard | undefined => {
    const applied = items.findLast(({ entry }) => entry.reason === "standard-applied");
    const attached = applied?.entry.attachments?.find(({ name }) => name === STANDARD_ATTACHMENT);
    const bytes = attached && readAttachment(logbook, attached.sha256);
    return bytes && readDocument<Standard>(bytes, { expect: "boothkeep.standard" }).document;
  };
  return [...logbookScreens(logbook)].map((screen) => ({
    where: `${folder} ${screen.folder}`,
    read: async () => {
      const own = await logbookScreen(logbook, screen, folder);
      if (own === undefined)
        context.err(`boothkeep: ${screen.folder} is left out: it has no entry that holds.`);
      const followed = own && followedBy(own.items);
      return own && { ...own.screen, ...(followed !== undefined && { followed }) };
    },
  }));
}

/**
 * The last configuration of a screen in a logbook; undefined for a screen without entries that hold.
 * @throws BoothkeepError logbook.lost-configuration, document.*
 */
export async function logbookScreen(
  logbook: Logbook,
  screen: LogbookScreen,
  folder: string,
): Promise<{ readonly screen: FleetScreen; readonly items: readonly HistoryItem[] } | undefined> {
  const { appliedStandards, readScreenHistory } = await import("../src/jobs/index.ts");
  const { items, snapshots, latest, siteId, screenId, lastMayBeDamaged } = readScreenHistory(screen);
  if (lastMayBeDamaged) {
    throw new BoothkeepError(
      "logbook.lost-configuration",
      `A damaged record of ${siteId}/${screenId} may be its last entry, so nobody can tell how the screen stands.`,
      { place: { file: folder }, next: HEAL },
    );
  }
  if (items.length === 0) return undefined;
  const configuration = inFile(folder, latest);
  if (configuration === undefined) {
    throw new BoothkeepError(
      "logbook.lost-configuration",
      `The last configuration of ${siteId}/${screenId} cannot be put together: something it rests on is missing or damaged.`,
      {
        place: { file: folder },
        next: HEAL,
      },
    );
  }
  const applied = () => appliedStandards(logbook, items, snapshots);
  return { screen: { name: nameOf(configuration), configuration, near: folder, snapshots, applied }, items };
}

const HEAL = "Heal the logbook from another copy: 'boothkeep verify --heal-from OTHER'.";

/** An error about a document says in which file it is. */
function inFile<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}

function nameOf({ screen }: Configuration): string {
  return `${screen.siteId}/${screen.screenId}`;
}
