import { BoothkeepError, type ErrorCode } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import { counted } from "../../words/index.ts";
import {
  type HistoryItem,
  nameOf,
  entryWords as nameWords,
  type ScreenNote,
  unseenWords,
} from "../entries/index.ts";
import { restoreFinding } from "./restore-findings.ts";

/** Which entry is wanted, and how its configuration is read. */
export interface ChooseEntryOptions<Read> {
  /** Id of an entry, or its first digits. Without it: the last as-left entry that holds and can be read. */
  readonly entryId?: string;
  /** Reads an entry whole and checks it; throws a BoothkeepError when it cannot be trusted. */
  readonly read: (item: HistoryItem) => Read;
  /** What of the screen cannot be seen, and a read-back that differs. */
  readonly note?: ScreenNote | undefined;
  /** True: an entry counts as well whose settings a unit was confirmed to hold after loading: it is what is in the booth. */
  readonly confirmed?: boolean;
  /** Whether somebody said which model is in the rack: else one that was recorded since is asked about. */
  readonly isModelNamed?: boolean;
}

/** The entry to restore from, with what speaks for looking twice. */
export interface ChosenEntry<Read> {
  readonly item: HistoryItem;
  readonly read: Read;
  readonly findings: readonly Finding[];
}

/**
 * Chooses what to load: the last as-left entry that was not withdrawn and verifies, unless an entry is named. Entries that
 * were passed over are told with the reason, so that nobody loads last year's settings unawares; where a newer one may be
 * among what is missing or damaged, nothing is chosen before somebody names the entry to go back to.
 *
 * @param items the entries of one screen in their order, as the logbook's history gives them
 * @throws BoothkeepError `restore.newer-unseen` where a newer entry may be missing; `restore.no-entry` when none can be used;
 *   `usage.wrong` when the id fits none or several; what `read` throws for an entry that was named
 */
export function chooseEntry<Read>(
  items: readonly HistoryItem[],
  { entryId, read, note, confirmed = false, isModelNamed = false }: ChooseEntryOptions<Read>,
): ChosenEntry<Read> {
  const known = (item: HistoryItem): readonly Finding[] => [
    ...anotherModel(items, item, isModelNamed),
    ...readBackDiffers(note),
  ];
  if (entryId !== undefined) {
    const item = named(items, entryId);
    const findings = [...known(item), ...doubtsOnNamed(item), ...notSeen(note), ...newerEntries(items, item)];
    return { item, read: read(item), findings };
  }
  const passedOver: PassedOver[] = [];
  for (const item of vouchedFor(items, confirmed)) {
    const chosen = tryToRead(item, read);
    if ("reason" in chosen) {
      passedOver.push(chosen);
      continue;
    }
    requireNothingNewer(items, item, { note, passedOver });
    const findings = [
      ...known(item),
      ...passedOver.map(passedOverFinding),
      ...recordedApart(items, item),
      ...newerEntries(items, item),
    ];
    return { item, read: chosen.read, findings };
  }
  throw noneLeft(items, passedOver, note);
}

interface PassedOver {
  readonly item: HistoryItem;
  /** Absent for one that was withdrawn. */
  readonly code?: ErrorCode;
  readonly reason: string;
  readonly next: string;
}

function tryToRead<Read>(
  item: HistoryItem,
  read: (item: HistoryItem) => Read,
): { readonly read: Read } | PassedOver {
  const [withdrawal] = item.withdrawals;
  if (withdrawal !== undefined) {
    const { recordedAt, recordedBy, reason } = withdrawal;
    return {
      item,
      reason: `It was withdrawn on ${recordedAt.slice(0, 10)} by ${recordedBy}: ${reason}`,
      next: "Use it only if you know why it was withdrawn.",
    };
  }
  try {
    return { read: read(item) };
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    return { item, code: error.code, reason: error.message, next: error.next };
  }
}

/** Newest first. */
function vouchedFor(items: readonly HistoryItem[], confirmed: boolean): readonly HistoryItem[] {
  const isConfirmed = ({ entry, standing: { readBack } }: HistoryItem) =>
    (entry.reason === "after-swap" || entry.reason === "standard-applied") &&
    (readBack.kind === "agrees" || readBack.kind === "ticked");
  return items
    .filter((item) => item.entry.reason === "as-left" || (confirmed && isConfirmed(item)))
    .toReversed();
}

/** Reasons for which an entry never counted: what comes before it is the last one. Any other may be put right. */
const NEVER_COUNTED: ReadonlySet<ErrorCode> = new Set<ErrorCode>([
  "logbook.unsigned",
  "logbook.broken-signature",
  "logbook.number-beyond",
  "logbook.other-screen",
  "logbook.not-canonical",
]);

function requireNothingNewer(
  items: readonly HistoryItem[],
  chosen: HistoryItem,
  { note, passedOver }: { readonly note: ScreenNote | undefined; readonly passedOver: readonly PassedOver[] },
): void {
  const before = namedBefore(items, chosen);
  const isOlder = (start: string) => [...before].some((id) => id.startsWith(start));
  const { records = [], boundFiles = [] } = note?.unseen ?? {};
  const unseen = { records: records.filter(({ id }) => !isOlder(id)), boundFiles };
  const damaged = passedOver.filter(({ code }) => code !== undefined && !NEVER_COUNTED.has(code));
  const { siteId, screenId } = chosen.entry;
  const words = [
    ...damaged.map(({ item, reason }) => `${capital(nameWords(nameOf(item)))} cannot be read: ${reason}`),
    ...[unseenWords(`${siteId} / ${screenId}`, unseen)].filter((text) => text !== undefined),
  ];
  if (words.length === 0) return;
  throw new BoothkeepError(
    "restore.newer-unseen",
    `${words.join(" ")} A newer entry may be among it, or that the one before is not to be used.`,
    {
      next: `Copy or heal it ('boothkeep verify --heal-from OTHER'). To go back to ${nameWords(nameOf(chosen))} nonetheless, name it: --entry ${chosen.id.slice(0, 12)}`,
      data: { olderEntry: chosen.id },
    },
  );
}

/** The ids of all entries that an entry follows, as far as they can be followed, and its own. */
function namedBefore(items: readonly HistoryItem[], { id }: HistoryItem): ReadonlySet<string> {
  const byId = new Map(items.map((item) => [item.id, item]));
  const seen = new Set([id]);
  for (const own of seen) for (const previous of byId.get(own)?.entry.previous ?? []) seen.add(previous);
  return seen;
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

function passedOverFinding({ item, reason, next }: PassedOver): Finding {
  return restoreFinding("restore/entry-passed-over", {
    words: `A newer one, ${nameWords(nameOf(item))}, was passed over. ${reason}`,
    remedy: next,
    numbers: { entry: item.entry.number, id: item.id },
  });
}

function noneLeft(
  items: readonly HistoryItem[],
  passedOver: readonly PassedOver[],
  note: ScreenNote | undefined,
): BoothkeepError {
  const untrusted = passedOver.filter(({ code }) => code !== undefined);
  const isUnseen = note !== undefined && note.unseen.records.length + note.unseen.boundFiles.length > 0;
  const unseen = isUnseen ? ` ${unseenWords(`${note.siteId} / ${note.screenId}`, note.unseen)}` : "";
  const words =
    untrusted.length > 0
      ? `None of the ${untrusted.length} as-left entries of the screen can be trusted. ${untrusted[0]!.reason}${unseen}`
      : isUnseen
        ? `The screen has no as-left entry that can be read.${unseen}`
        : "The screen has no as-left entry that holds.";
  const next =
    untrusted.length > 0
      ? untrusted[0]!.next
      : isUnseen
        ? "Heal the logbook from another copy ('boothkeep verify --heal-from OTHER'), or load from a handover pack."
        : items.length > 0
          ? "Choose one of the other entries yourself: 'boothkeep history' lists them, '--entry ID' takes one."
          : "Check the site and the screen: 'boothkeep history' lists what is there.";
  return new BoothkeepError("restore.no-entry", words, {
    next,
    data: { passedOver: passedOver.map(({ item }) => item.id) },
  });
}

function doubtsOnNamed(item: HistoryItem): readonly Finding[] {
  const { entry, withdrawals, id } = item;
  const numbers = { entry: entry.number, id };
  const name = capital(nameWords(nameOf(item)));
  return [
    ...withdrawals.map(({ reason, recordedAt, recordedBy }) =>
      restoreFinding("restore/entry-withdrawn", {
        words: `${name} was withdrawn on ${recordedAt.slice(0, 10)} by ${recordedBy}: ${reason}`,
        numbers,
      }),
    ),
    ...(entry.reason === "as-left"
      ? []
      : [
          restoreFinding("restore/not-as-left", {
            words: `${name} is not as left: nobody vouched for these settings.`,
            numbers,
          }),
        ]),
  ];
}

function notSeen(note: ScreenNote | undefined): readonly Finding[] {
  const words = note && unseenWords(`${note.siteId} / ${note.screenId}`, note.unseen);
  return words === undefined ? [] : [restoreFinding("restore/records-unseen", { words })];
}

/** The unit in the rack is of another model since: what was recorded on the old one is not for it. */
function anotherModel(
  items: readonly HistoryItem[],
  chosen: HistoryItem,
  isModelNamed: boolean,
): readonly Finding[] {
  if (!chosen.standing.isOfAnotherModel) return [];
  const last = items.findLast(
    ({ withdrawals, standing }) => withdrawals.length === 0 && !standing.isOfAnotherModel,
  );
  if (last === undefined) return [];
  const { profileId, serial } = last.entry.unit;
  const words = `The unit that was recorded last is a '${profileId}', serial number ${serial} (${nameWords(nameOf(last))}); ${nameWords(nameOf(chosen))} is for a '${chosen.entry.unit.profileId}'.`;
  const numbers = { recordedLast: profileId, chosen: chosen.entry.unit.profileId };
  const settled = items.findLast(
    ({ entry, withdrawals, standing }) =>
      withdrawals.length === 0 &&
      entry.unit.profileId === profileId &&
      (standing.readBack.kind === "agrees" || standing.readBack.kind === "ticked"),
  );
  return [
    restoreFinding(isModelNamed ? "restore/model-named" : "restore/another-model", {
      words,
      numbers,
      ...(settled !== undefined && {
        remedy: `Say which model is in the rack now: '--unit MODEL'. For the '${profileId}', ${nameWords(nameOf(settled))} was confirmed: '--entry ${settled.id.slice(0, 12)}'.`,
      }),
    }),
  ];
}

function readBackDiffers(note: ScreenNote | undefined): readonly Finding[] {
  const unsettled = note?.unsettled;
  if (unsettled === undefined) return [];
  return [
    restoreFinding("restore/read-back-differs", {
      words: `The unit was read back and held something else than was to be loaded (${nameWords(unsettled.entry)}, ${counted(unsettled.differences, "difference")}); no later read-back agrees.`,
      numbers: { entry: unsettled.entry.number, differences: unsettled.differences },
    }),
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

/**
 * As-left entries that the chosen one does not follow, with other settings: two people recorded the screen without knowing of
 * each other, and neither number nor clock tells whose settings are the later ones.
 */
function recordedApart(items: readonly HistoryItem[], chosen: HistoryItem): readonly Finding[] {
  const before = namedBefore(items, chosen);
  // Where the row is broken by an entry that is missing, nobody can tell what is behind it.
  const isBroken = [...before].some((id) => !items.some((item) => item.id === id));
  const apart = (isBroken ? [] : items).filter(
    (item) =>
      item.entry.reason === "as-left" &&
      item.withdrawals.length === 0 &&
      item.standing.refusal === undefined &&
      item.entry.configuration !== chosen.entry.configuration &&
      !before.has(item.id) &&
      !namedBefore(items, item).has(chosen.id),
  );
  if (apart.length === 0) return [];
  const all = [...apart, chosen];
  const names = all.map(entryWords).join("; ");
  return [
    restoreFinding("restore/recorded-apart", {
      words: `The screen was left twice without one knowing of the other: ${names}. Nobody can tell which came last.`,
      numbers: { entries: all.length },
      remedy: `Compare them ('boothkeep compare') and name one: ${all.map(({ id }) => `'--entry ${id.slice(0, 12)}'`).join(" or ")}.`,
    }),
  ];
}

/** "7 (as left, 2026-03-02, ab12cd34)". */
function entryWords(item: HistoryItem): string {
  return nameWords(nameOf(item)).replace(/^entry /, "");
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
