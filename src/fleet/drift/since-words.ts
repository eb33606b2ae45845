import type { AuditSince } from "../../model/index.ts";
import type { Since } from "./index.ts";

/** What first shows in the same entry, counted; in the order of the entries. */
export function countedBy(all: readonly Since[]): AuditSince[] {
  const byEntry = new Map<string, AuditSince>();
  for (const since of all) {
    const key = `${since.entryId}\n${since.fromTheStart}`;
    byEntry.set(key, { ...since, count: (byEntry.get(key)?.count ?? 0) + 1 });
  }
  return [...byEntry.values()].sort((a, b) => a.number - b.number);
}

/** So many entries are told; the rest are counted. */
const MOST_ENTRIES = 3;

/** "since entry 4 of 2026-03-02 (routine, Service team)"; with how many where there is more than one entry. */
export function sinceWords(since: readonly AuditSince[]): string {
  const told = since
    .slice(-MOST_ENTRIES)
    .reverse()
    .map((item) => {
      const many = since.length > 1 ? `${item.count} ` : "";
      return `${many}since ${item.fromTheStart ? "the first entry or before, " : ""}${entryWords(item)}`;
    });
  const more = since.length - MOST_ENTRIES;
  return told.join(", ") + (more > 0 ? ` and ${more} earlier` : "");
}

/** "entry 4 of 2026-03-02 (routine, Service team)" */
export function entryWords({ number, recordedAt, reason, recordedBy }: Omit<AuditSince, "count">): string {
  return `entry ${number} of ${recordedAt.slice(0, 10)} (${reason}, ${recordedBy})`;
}
