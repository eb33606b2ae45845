import type { Sha256 } from "../../base/canonical/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { Entry, EntrySignature, Withdrawal } from "../../model/index.ts";
import { readBound } from "./bound-file.ts";
import { withStore } from "./faults.ts";
import type { FileStore } from "./file-store.ts";
import { readFolderOnce, readSteadily } from "./kept-files.ts";
import { BOUND, ENTRIES, folderName } from "./layout.ts";
import type { Logbook } from "./logbook.ts";
import { readScreen, type ScreenPlace, type ScreenRecords } from "./screen-records.ts";

/** Which entries are wanted; what is left out does not restrict. */
export interface HistoryFilter {
  readonly siteId?: string;
  readonly screenId?: string;
  readonly profileId?: string;
  readonly serial?: string;
  readonly reasons?: readonly Entry["reason"][];
  /** Not before this time (RFC 3339 with offset), by the writers' clocks. */
  readonly from?: string;
  /** Before this time. */
  readonly until?: string;
}

/** An entry with what was said about it later. */
export interface HistoryItem {
  readonly id: Sha256;
  readonly entry: Entry;
  /** Not to be used any more, and why; empty for an entry that holds. */
  readonly withdrawals: readonly Withdrawal[];
  readonly signatures: readonly EntrySignature[];
  /** No other entry of the screen follows this one. More than one where a screen was recorded in two places apart. */
  readonly isLatest: boolean;
}

export interface History {
  /** By site and screen, then in the order of the entries' numbers (which the clock does not touch). */
  readonly items: readonly HistoryItem[];
  /** What could not be read or trusted on the way. */
  readonly findings: readonly Finding[];
}

/**
 * The entries of a logbook. Reads only the screens that the filter asks for.
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function history(logbook: Logbook, filter: HistoryFilter = {}): History {
  const items: HistoryItem[] = [];
  const findings: Finding[] = [];
  for (const place of screenPlaces(logbook.store, filter)) {
    const records = withStore(logbook.store, "", () => readScreen(logbook.store, place));
    items.push(...screenHistory(records).filter((item) => isWanted(item.entry, filter)));
    findings.push(...records.findings);
  }
  return { items: items.sort(bySite), findings };
}

/** The entries of one screen in their order. */
export function screenHistory(records: ScreenRecords): readonly HistoryItem[] {
  const followed = new Set([...records.entries.values()].flatMap((entry) => entry.previous));
  return [...records.entries]
    .map(([id, entry]) => ({
      id,
      entry,
      withdrawals: [...records.withdrawals.values()].filter((withdrawal) => withdrawal.entry === id),
      signatures: [...records.signatures.values()].filter((signature) => signature.record === id),
      isLatest: !followed.has(id),
    }))
    .sort(byNumber);
}

/** The screens that a logbook may hold records of, by folder names, sorted. */
export function screenPlaces(
  store: FileStore,
  { siteId, screenId }: Pick<HistoryFilter, "siteId" | "screenId"> = {},
): readonly ScreenPlace[] {
  const wantedSite = siteId === undefined ? undefined : folderName(siteId);
  const wantedScreen = screenId === undefined ? undefined : folderName(screenId);
  if (wantedSite !== undefined && wantedScreen !== undefined) {
    return [{ site: wantedSite, screen: wantedScreen }];
  }
  const wanted = ({ site, screen }: ScreenPlace) =>
    (wantedSite ?? site) === site && (wantedScreen ?? screen) === screen;
  return withStore(store, "", () =>
    readSteadily(() => {
      const places = [...loosePlaces(store, wantedSite), ...boundPlaces(store, wantedSite)].filter(wanted);
      const distinct = new Map(places.map((place) => [`${place.site}/${place.screen}`, place]));
      return [...distinct.values()].sort(
        (a, b) => compareText(a.site, b.site) || compareText(a.screen, b.screen),
      );
    }),
  );
}

function loosePlaces(store: FileStore, wantedSite: string | undefined): ScreenPlace[] {
  const folders = (path: string) =>
    store
      .list(path)
      .filter((item) => item.kind === "folder")
      .map((item) => item.name);
  const sites = wantedSite === undefined ? folders(ENTRIES) : [wantedSite];
  return sites.flatMap((site) => folders(`${ENTRIES}/${site}`).map((screen) => ({ site, screen })));
}

function boundPlaces(store: FileStore, wantedSite: string | undefined): ScreenPlace[] {
  const { files, damaged } = readFolderOnce(store, BOUND, (stem) => (wantedSite ?? stem) === stem);
  return [...files, ...damaged].flatMap((file) =>
    (readBound(file.bytes)?.index.members ?? [])
      .map((member) => member.screenId)
      .filter((screenId) => screenId !== undefined)
      .map((screenId) => ({ site: file.stem, screen: folderName(screenId) })),
  );
}

/** The order of a screen's entries: by number; entries recorded apart by the writers' clocks, then by id. */
function byNumber(a: HistoryItem, b: HistoryItem): number {
  return (
    a.entry.number - b.entry.number ||
    Date.parse(a.entry.recordedAt) - Date.parse(b.entry.recordedAt) ||
    compareText(a.id, b.id)
  );
}

function bySite(a: HistoryItem, b: HistoryItem): number {
  return (
    compareText(a.entry.siteId, b.entry.siteId) ||
    compareText(a.entry.screenId, b.entry.screenId) ||
    byNumber(a, b)
  );
}

function isWanted(entry: Entry, filter: HistoryFilter): boolean {
  const at = Date.parse(entry.recordedAt);
  return (
    (filter.siteId === undefined || entry.siteId === filter.siteId) &&
    (filter.screenId === undefined || entry.screenId === filter.screenId) &&
    (filter.profileId === undefined || entry.unit.profileId === filter.profileId) &&
    (filter.serial === undefined || entry.unit.serial === filter.serial) &&
    (filter.reasons === undefined || filter.reasons.includes(entry.reason)) &&
    (filter.from === undefined || at >= Date.parse(filter.from)) &&
    (filter.until === undefined || at < Date.parse(filter.until))
  );
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
