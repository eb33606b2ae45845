import type { Finding } from "../../base/findings/index.ts";
import type { Entry } from "../../model/index.ts";
import { BOUND, findPlaces, type Logbook, logbookFinding } from "../medium/index.ts";
import {
  type HistoryItem,
  type JudgedScreen,
  judgeScreen,
  type ReadBack,
  standingGround,
  type Unseen,
} from "../standing/index.ts";

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

/** What of one screen nobody can see here, and what is known of its unit. */
export interface ScreenNote {
  readonly siteId: string;
  readonly screenId: string;
  readonly unseen: Unseen;
  /** The last read-back that differs, until a later one agrees. */
  readonly unsettled: (ReadBack & { readonly kind: "differs" }) | undefined;
}

/** Entries of a logbook, and what could not be read of it. */
export interface History {
  /** By site and screen, then in the order of the entries' numbers (which the clock does not touch). */
  readonly items: readonly HistoryItem[];
  /** Screens of which something is to be said. */
  readonly notes: readonly ScreenNote[];
  /** Sites, by folder name, that may have screens which nobody can name: what held them is missing or damaged. */
  readonly unlistedSites: readonly string[];
  /** What could not be read or trusted on the way. */
  readonly findings: readonly Finding[];
}

/**
 * The entries of a logbook, each with its standing. Reads only the screens that the filter asks for.
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function history(logbook: Logbook, filter: HistoryFilter = {}): History {
  const ground = standingGround(logbook);
  const items: HistoryItem[] = [];
  const notes: ScreenNote[] = [];
  const { places, unlistedSites, findings: notPlaced } = findPlaces(logbook.store, filter);
  const findings: Finding[] = [...ground.policy.findings, ...notPlaced];
  for (const place of places) {
    const screen = judgeScreen(ground, place);
    items.push(...screen.items.filter((item) => isWanted(item.entry, filter)));
    findings.push(...screen.findings);
    const note = screenNote(screen);
    if (note !== undefined) notes.push(note);
  }
  for (const site of unlistedSites) {
    // Where a screen of the site was read, the file was told already.
    if (places.some((place) => place.site === site)) continue;
    findings.push(logbookFinding("logbook/unlisted-screens", `${BOUND}/${site}`));
  }
  return { items: items.sort(bySite), notes, unlistedSites, findings: distinctFindings(findings) };
}

/** Reading several screens of a site may find the same thing. */
export function distinctFindings(findings: readonly Finding[]): readonly Finding[] {
  return [...new Map(findings.map((finding) => [`${finding.code}\n${finding.words}`, finding])).values()];
}

/** What is to be said of a screen; undefined where there is nothing. */
export function screenNote({ place, items, unseen, unsettled }: JudgedScreen): ScreenNote | undefined {
  if (unseen.records.length + unseen.boundFiles.length === 0 && unsettled === undefined) return undefined;
  const { siteId = place.site, screenId = place.screen } = items[0]?.entry ?? {};
  return { siteId, screenId, unseen, unsettled };
}

/** The order within a screen stays. */
function bySite(a: HistoryItem, b: HistoryItem): number {
  return compareText(a.entry.siteId, b.entry.siteId) || compareText(a.entry.screenId, b.entry.screenId);
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
