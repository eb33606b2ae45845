import { resolve } from "node:path";
import { type Configuration, EXIT_CODE, type Finding, type Logbook } from "../src/public/boothkeep.ts";
import type { Entry, HistoryItem, ScreenNote } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";
import { wrap } from "./wrap.ts";

/** Which screen, and which of its entries. */
export interface EntryWish {
  readonly site: string;
  readonly screen: string;
  /** Id or its first digits; absent: the last as-left entry that verifies. */
  readonly entry?: string;
  /** True: what a unit was confirmed to hold after loading counts like as left; for papers that stay in the booth. */
  readonly confirmed?: boolean;
  /** The model in the rack, where somebody named it. */
  readonly unit?: string;
}

/** An entry that may be loaded, with its configuration in the present version of the schema. */
export interface RestorableEntry {
  readonly item: HistoryItem;
  readonly id: string;
  readonly entry: Entry;
  readonly configuration: Configuration;
  /** What of the screen cannot be seen here, and a read-back that differs. */
  readonly note: ScreenNote | undefined;
  readonly findings: readonly Finding[];
}

/**
 * What a paper has to say of the entry that it shows, if it is not to be loaded without a question: another model was recorded
 * since, the screen was left twice without one knowing of the other, the entry was withdrawn. It is said here too.
 */
export async function doubtsOnPaper(
  { findings }: RestorableEntry,
  context: Context,
): Promise<readonly string[]> {
  const { restoreRefusals } = await import("../src/public/logbook.ts");
  const doubts = restoreRefusals(findings, []).map(({ words }) => words);
  for (const words of doubts) context.err(wrap(`boothkeep: ${words}`, context.columns));
  if (doubts.length > 0) context.exit(EXIT_CODE.found);
  return doubts;
}

/** Opens the logbook in a folder. */
export async function openLogbookFolder(folder: string, context: Context): Promise<Logbook> {
  const { folderStore, openLogbook } = await import("../src/public/boothkeep.ts");
  return openLogbook(folderStore(resolve(context.cwd, folder)));
}

/**
 * Chooses the entry to load from. An entry verifies when its records are whole, its signatures meet the policy of the
 * logbook, and its configuration is the one of its own screen and fits the schema.
 * @throws BoothkeepError logbook.no-entry, logbook.damaged-records, restore.newer-unseen, restore.no-entry, usage.wrong, and for
 *   an entry that was named whatever reading it throws
 */
export async function restorableEntry(logbook: Logbook, wish: EntryWish): Promise<RestorableEntry> {
  const { openScreen, requireRestorable } = await import("../src/public/logbook.ts");
  const { readConfiguration } = await import("../src/public/boothkeep.ts");
  const { chooseEntry } = await import("../src/public/logbook.ts");
  const { items, note, findings, read } = openScreen(logbook, wish.site, wish.screen);
  const chosen = chooseEntry(items, {
    note,
    ...(wish.entry !== undefined && { entryId: wish.entry }),
    ...(wish.confirmed === true && { confirmed: true }),
    ...(wish.unit !== undefined && { isModelNamed: true }),
    read: (item) => {
      requireRestorable(item);
      return readConfiguration(read(item).canonicalText).document;
    },
  });
  return {
    item: chosen.item,
    id: chosen.item.id,
    entry: chosen.item.entry,
    configuration: chosen.read,
    note,
    findings: [...chosen.findings, ...findings],
  };
}
