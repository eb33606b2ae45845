import type { Sha256 } from "../../base/canonical/index.ts";
import type { Entry, EntrySignature, Withdrawal } from "../../model/index.ts";
import type { ScreenRecords } from "./screen-records.ts";

/** An entry with what was said about it later, nothing of it judged. */
export interface EntryRecords {
  readonly id: Sha256;
  readonly entry: Entry;
  readonly withdrawals: readonly { readonly id: Sha256; readonly withdrawal: Withdrawal }[];
  readonly signatures: readonly EntrySignature[];
  /** No other entry of the screen follows this one. More than one where a screen was recorded in two places apart. */
  readonly isLatest: boolean;
}

/** The entries of one screen in their order. */
export function screenEntries(records: ScreenRecords): readonly EntryRecords[] {
  const followed = new Set([...records.entries.values()].flatMap((entry) => entry.previous));
  const withdrawals = groupedBy(records.withdrawals, (withdrawal) => withdrawal.entry);
  const signatures = groupedBy(records.signatures, (signature) => signature.record);
  return [...records.entries]
    .map(([id, entry]) => ({
      id,
      entry,
      withdrawals: (withdrawals.get(id) ?? []).map(([own, withdrawal]) => ({ id: own, withdrawal })),
      signatures: (signatures.get(id) ?? []).map(([, signature]) => signature),
      isLatest: !followed.has(id),
    }))
    .sort(inOrder);
}

function groupedBy<T>(
  records: ReadonlyMap<Sha256, T>,
  subjectOf: (record: T) => string,
): ReadonlyMap<string, readonly (readonly [Sha256, T])[]> {
  const groups = new Map<string, (readonly [Sha256, T])[]>();
  for (const item of records) {
    const subject = subjectOf(item[1]);
    const group = groups.get(subject);
    if (group === undefined) groups.set(subject, [item]);
    else group.push(item);
  }
  return groups;
}

/** The order of a screen's entries: by number; entries recorded apart by the writers' clocks, then by id. */
export function inOrder(
  a: { readonly id: Sha256; readonly entry: Entry },
  b: { readonly id: Sha256; readonly entry: Entry },
): number {
  return (
    a.entry.number - b.entry.number ||
    Date.parse(a.entry.recordedAt) - Date.parse(b.entry.recordedAt) ||
    (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)
  );
}

/**
 * An entry's number follows those that it names, with room for damaged ones that its writer knew by their names only. One
 * that is far beyond came from no boothkeep.
 */
const WIDEST_GAP = 1_000;
/** The same where what an entry names is not here. */
const HIGHEST_UNFOLLOWED = 1_000_000;

/** Ids of entries whose number can be told from no entry before: nothing may be built on them, nor follow them. */
export function numberedBeyond(entries: ReadonlyMap<Sha256, Entry>): ReadonlySet<Sha256> {
  const beyond = new Set<Sha256>();
  // Most often nothing is: then one look at the highest number is enough.
  let highest = 0;
  for (const { number } of entries.values()) highest = Math.max(highest, number);
  if (highest <= WIDEST_GAP) return beyond;
  const sorted = [...entries].sort(([, a], [, b]) => a.number - b.number);
  for (const [id, entry] of sorted) {
    const known = entry.previous.flatMap((previous) => {
      const before = entries.get(previous);
      return before === undefined || beyond.has(previous) ? [] : [before.number];
    });
    const isIncomplete = entry.previous.some((previous) => !entries.has(previous));
    const limit = Math.max(isIncomplete ? HIGHEST_UNFOLLOWED : 0, ...known) + WIDEST_GAP;
    if (entry.number > limit) beyond.add(id);
  }
  return beyond;
}
