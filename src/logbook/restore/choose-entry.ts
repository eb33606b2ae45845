import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { HistoryItem } from "../entries/index.ts";
import { restoreFinding } from "./restore-findings.ts";

/** Which entry is wanted, and how its configuration is read. */
export interface ChooseEntryOptions<Read> {
  /** Id of an entry, or its first digits. Without it: the last as-left entry that holds and can be read. */
  readonly entryId?: string;
  /** Reads an entry whole and checks it; throws a BoothkeepError when it cannot be trusted. */
  readonly read: (item: HistoryItem) => Read;
}

/** The entry to restore from, with what speaks for looking twice. */
export interface ChosenEntry<Read> {
  readonly item: HistoryItem;
  readonly read: Read;
  readonly findings: readonly Finding[];
}

/**
 * Chooses what to load: the last as-left entry that was not withdrawn and verifies, unless an entry is named. Newer
 * entries and entries that were passed over are told, so that nobody loads last year's settings unawares.
 *
 * @param items the entries of one screen in their order, as the logbook's history gives them
 * @throws BoothkeepError `restore.no-entry` when none can be used; `usage.wrong` when the id fits none or several; what
 *   `read` throws for an entry that was named
 */
export function chooseEntry<Read>(
  items: readonly HistoryItem[],
  { entryId, read }: ChooseEntryOptions<Read>,
): ChosenEntry<Read> {
  if (entryId !== undefined) {
    const item = named(items, entryId);
    return { item, read: read(item), findings: [...doubtsOnNamed(item), ...newerEntries(items, item)] };
  }
  const passedOver: Finding[] = [];
  for (const item of asLeft(items)) {
    try {
      const chosen = read(item);
      return {
        item,
        read: chosen,
        findings: [...passedOver, ...recordedApart(items), ...newerEntries(items, item)],
      };
    } catch (error) {
      if (!(error instanceof BoothkeepError)) throw error;
      passedOver.push(
        restoreFinding("restore/entry-passed-over", {
          words: `Entry ${entryWords(item)} cannot be used and was passed over: ${error.message}`,
          remedy: error.next,
          numbers: { entry: item.entry.number, id: item.id },
        }),
      );
    }
  }
  throw noneLeft(items, passedOver);
}

/** Newest first. */
function asLeft(items: readonly HistoryItem[]): readonly HistoryItem[] {
  return items
    .filter(({ entry, withdrawals }) => entry.reason === "as-left" && withdrawals.length === 0)
    .toReversed();
}

function named(items: readonly HistoryItem[], entryId: string): HistoryItem {
  const [item, ...more] = items.filter(({ id }) => id.startsWith(entryId));
  if (item !== undefined && more.length === 0) return item;
  throw new BoothkeepError(
    "usage.wrong",
    item === undefined
      ? `The screen has no entry whose id starts with '${entryId}'.`
      : `${more.length + 1} entries of the screen have ids that start with '${entryId}'.`,
    {
      next:
        item === undefined
          ? "List what is there: 'boothkeep history'."
          : `Give more digits: ${[item, ...more].map(({ id }) => id.slice(0, 16)).join(", ")}.`,
    },
  );
}

function noneLeft(items: readonly HistoryItem[], passedOver: readonly Finding[]): BoothkeepError {
  const words =
    passedOver.length > 0
      ? `None of the ${passedOver.length} as-left entries of the screen can be trusted.`
      : "The screen has no as-left entry that holds.";
  const next =
    passedOver.length > 0
      ? "Heal the logbook from another copy ('boothkeep verify --heal-from OTHER'), or load from a handover pack."
      : items.length > 0
        ? "Choose one of the other entries yourself: 'boothkeep history' lists them, '--entry ID' takes one."
        : "Check the site and the screen: 'boothkeep history' lists what is there.";
  return new BoothkeepError("restore.no-entry", words, {
    next,
    data: { passedOver: passedOver.map(({ numbers }) => numbers.id) },
  });
}

function doubtsOnNamed(item: HistoryItem): readonly Finding[] {
  const { entry, withdrawals, id } = item;
  const numbers = { entry: entry.number, id };
  return [
    ...withdrawals.map(({ reason }) =>
      restoreFinding("restore/entry-withdrawn", {
        words: `Entry ${entryWords(item)} was withdrawn: ${reason}`,
        numbers,
      }),
    ),
    ...(entry.reason === "as-left"
      ? []
      : [
          restoreFinding("restore/not-as-left", {
            words: `Entry ${entryWords(item)} is not as left: nobody vouched for these settings.`,
            numbers,
          }),
        ]),
  ];
}

function newerEntries(items: readonly HistoryItem[], chosen: HistoryItem): readonly Finding[] {
  const newer = items
    .slice(items.indexOf(chosen) + 1)
    .filter(
      ({ entry, withdrawals }) =>
        withdrawals.length === 0 && entry.configuration !== chosen.entry.configuration,
    );
  if (newer.length === 0) return [];
  return [
    restoreFinding("restore/newer-entry", {
      words: `${newer.length === 1 ? "A newer entry exists" : `${newer.length} newer entries exist`}: ${newer.map(entryWords).join("; ")}. What was changed since is not in what will be loaded.`,
      numbers: { newer: newer.length },
    }),
  ];
}

/** Two people recorded the screen without knowing of each other: each may have left it otherwise. */
function recordedApart(items: readonly HistoryItem[]): readonly Finding[] {
  const latest = items.filter(({ isLatest, entry }) => isLatest && entry.reason === "as-left");
  if (latest.length < 2) return [];
  return [
    restoreFinding("restore/recorded-apart", {
      words: `The screen was left twice without one knowing of the other: ${latest.map(entryWords).join("; ")}. The later one is taken.`,
      numbers: { entries: latest.length },
    }),
  ];
}

/** "7 (as left, 2026-03-02, ab12cd34)". */
function entryWords({ id, entry }: HistoryItem): string {
  return `${entry.number} (${entry.reason.replace("-", " ")}, ${entry.recordedAt.slice(0, 10)}, ${id.slice(0, 8)})`;
}
