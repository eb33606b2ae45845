import { resolve } from "node:path";
import { BoothkeepError, type Configuration, type Finding, type Logbook } from "../src/public/boothkeep.ts";
import type { Entry } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";

/** Which screen, and which of its entries. */
export interface EntryWish {
  readonly site: string;
  readonly screen: string;
  /** Id or its first digits; absent: the last as-left entry that verifies. */
  readonly entry?: string;
}

/** An entry that may be loaded, with its configuration in the present version of the schema. */
export interface RestorableEntry {
  readonly id: string;
  readonly entry: Entry;
  readonly configuration: Configuration;
  readonly findings: readonly Finding[];
}

/** Opens the logbook in a folder. */
export async function openLogbookFolder(folder: string, context: Context): Promise<Logbook> {
  const { folderStore, openLogbook } = await import("../src/public/boothkeep.ts");
  return openLogbook(folderStore(resolve(context.cwd, folder)));
}

/**
 * Chooses the entry to load from. An entry verifies when its records are whole, its signatures hold, the policy of the
 * logbook is met, and its configuration fits the schema.
 * @throws BoothkeepError logbook.no-entry, restore.no-entry, usage.wrong, and for an entry that was named whatever reading it throws
 */
export async function restorableEntry(logbook: Logbook, wish: EntryWish): Promise<RestorableEntry> {
  const { history, readEntry, readConfiguration } = await import("../src/public/boothkeep.ts");
  const { readPolicy, requireRestorable, chooseEntry } = await import("../src/public/logbook.ts");
  const policy = readPolicy(logbook);
  const { items, findings } = history(logbook, { siteId: wish.site, screenId: wish.screen });
  if (items.length === 0) {
    throw new BoothkeepError(
      "logbook.no-entry",
      `The logbook has no entry of site '${wish.site}', screen '${wish.screen}'.`,
      { next: "Check the names: 'boothkeep history' lists which sites and screens are there." },
    );
  }
  const chosen = chooseEntry(items, {
    ...(wish.entry !== undefined && { entryId: wish.entry }),
    read: (item) => {
      requireRestorable(item);
      const { canonicalText } = readEntry(logbook, { id: item.id });
      return readConfiguration(canonicalText).document;
    },
  });
  return {
    id: chosen.item.id,
    entry: chosen.item.entry,
    configuration: chosen.read,
    findings: [...policy.findings, ...findings, ...chosen.findings],
  };
}
