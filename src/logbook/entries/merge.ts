import type { Finding } from "../../base/findings/index.ts";
import type { Entry } from "../../model/index.ts";
import {
  configurationResolver,
  findPlaces,
  keepPart,
  keepRecordFile,
  keepReference,
  type Logbook,
  type LogbookFindingCode,
  type LogbookRecord,
  lineToKeep,
  logbookFinding,
  PartShelf,
  type PlacesFilter,
  readReferences,
  readScreen,
  type ScreenPlace,
  type ScreenRecords,
  withStore,
} from "../medium/index.ts";
import {
  entryCheck,
  isRefusal,
  type JudgedScreen,
  judgeScreen,
  type NamedEntry,
  nameOf,
  type StandingGround,
  standingGround,
} from "../standing/index.ts";
import { type ScreenNote, screenNote } from "./history.ts";

/** Which records of the other logbook are taken in. */
export interface MergeOptions {
  /** Brings over one site or one screen only. */
  readonly only?: PlacesFilter;
  /** Called after each screen. */
  readonly onProgress?: (done: number, total: number) => void;
}

/** What was taken in from another logbook. */
export interface MergeReport {
  readonly entriesAdded: number;
  readonly withdrawalsAdded: number;
  readonly signaturesAdded: number;
  /** What could not be trusted in the other logbook; none of it was brought over. */
  readonly findings: readonly Finding[];
  /** What of the other logbook's screens could not be seen there. */
  readonly notes: readonly ScreenNote[];
  /** Screens that have more than one last entry now: they were recorded in two places apart. */
  readonly forks: readonly Fork[];
}

/** A screen whose entries went two ways. */
export interface Fork {
  readonly siteId: string;
  readonly screenId: string;
  readonly latest: readonly NamedEntry[];
}

/**
 * Brings into a logbook what another one has besides. Logbooks merge by set union: whatever the order, the same
 * entries result. Damaged records are not brought over. The other logbook is only read; its signature policy stays
 * where it is. May be interrupted at any moment and run again.
 *
 * @throws BoothkeepError output.no-space, output.read-only, input.no-permission, output.failed
 */
export function mergeLogbook(into: Logbook, from: Logbook, options: MergeOptions = {}): MergeReport {
  const counts = { entriesAdded: 0, withdrawalsAdded: 0, signaturesAdded: 0 };
  const theirGround = standingGround(from);
  const { places, unlistedSites } = findPlaces(from.store, options.only);
  const findings: Finding[] = [
    ...theirGround.policy.findings,
    ...unlistedSites.map((site) => logbookFinding("logbook/unlisted-screens", site)),
  ];
  const notes: ScreenNote[] = [];
  const touched: ScreenPlace[] = [];
  const merging: Merging = { into, theirGround, profiles: new Set(), findings };
  for (const [index, place] of places.entries()) {
    const theirs = judgeScreen(theirGround, place);
    findings.push(...theirs.findings);
    const note = screenNote(theirs);
    if (note !== undefined) notes.push(note);
    withStore(into.store, "", () => {
      const missing = missingRecords(merging, theirs);
      if (missing.length > 0) touched.push(place);
      for (const { record, lines } of missing) {
        if (record.kind === "boothkeep.entry") {
          bringBasis(merging, record);
          counts.entriesAdded += 1;
        } else if (record.kind === "boothkeep.withdrawal") {
          counts.withdrawalsAdded += 1;
        } else {
          counts.signaturesAdded += 1;
        }
        findings.push(...keepRecordFile(into.store, record, lines));
      }
      settleConfigurations(merging, place, theirs.records);
    });
    options.onProgress?.(index + 1, places.length);
  }
  return { ...counts, findings, notes, forks: forksAmong(into, touched) };
}

interface Merging {
  readonly into: Logbook;
  readonly theirGround: StandingGround;
  /** Profiles whose references were brought over. */
  readonly profiles: Set<string>;
  readonly findings: Finding[];
}

/** Screens that were recorded apart, among those to which something was added. */
function forksAmong(into: Logbook, touched: readonly ScreenPlace[]): readonly Fork[] {
  const ground = standingGround(into);
  return touched.flatMap((place) => {
    const latest = judgeScreen(ground, place).items.filter(
      ({ isLatest, standing }) => isLatest && standing.recordedApart.length > 0,
    );
    const first = latest[0]?.entry;
    return first === undefined
      ? []
      : [{ siteId: first.siteId, screenId: first.screenId, latest: latest.map(nameOf) }];
  });
}

interface MissingRecord {
  readonly record: LogbookRecord;
  readonly lines: readonly string[];
}

/**
 * What the other screen has besides, earlier entries first, so that an interrupted merging leaves no gaps. Entries that no
 * boothkeep wrote stay where they are: with a number that follows from nothing, or a configuration of another screen.
 */
function missingRecords(
  { into, theirGround, findings }: Merging,
  theirs: JudgedScreen,
): readonly MissingRecord[] {
  const { records } = theirs;
  const ours = readScreen(into.store, theirs.place);
  const missing = [...records.lines].filter(([id]) => !ours.lines.has(id));
  if (missing.length === 0) return [];
  const check = entryCheck(theirGround, theirs);
  const items = new Map(theirs.items.map((item) => [item.id, item]));
  const isForeign = (id: string): boolean => {
    const item = items.get(id);
    if (item === undefined) return false;
    // Already among the findings of the screen.
    if (item.standing.refusal?.code === "logbook.number-beyond") return true;
    const checked = check(item);
    const code = isRefusal(checked) ? FOREIGN[checked.code] : undefined;
    if (code === undefined) return false;
    findings.push(logbookFinding(code, id));
    return true;
  };
  return missing
    .filter(([id]) => !isForeign(id))
    .map(([id, lines]) => ({
      record: (records.entries.get(id) ?? records.withdrawals.get(id) ?? records.signatures.get(id))!,
      lines: lines.map((line) => line.text),
    }))
    .sort((a, b) => orderOf(a.record) - orderOf(b.record));
}

const FOREIGN: Readonly<Record<string, LogbookFindingCode>> = {
  "logbook.other-screen": "logbook/other-screen",
  "logbook.not-canonical": "logbook/not-canonical",
};

/** Entries by number, then what is said about them. */
function orderOf(record: LogbookRecord): number {
  if (record.kind === "boothkeep.entry") return record.number;
  return record.kind === "boothkeep.withdrawal" ? Number.MAX_SAFE_INTEGER - 1 : Number.MAX_SAFE_INTEGER;
}

/** What an entry rests on goes first: the references of its profile, its attachments. */
function bringBasis({ into, theirGround, profiles, findings }: Merging, entry: Entry): void {
  const { profileId } = entry.unit;
  if (!profiles.has(profileId)) {
    profiles.add(profileId);
    for (const { role, text } of readReferences(theirGround.logbook.store, profileId)) {
      keepReference(into.store, profileId, role, text);
    }
  }
  const ours = new PartShelf(into.store);
  for (const { name, sha256 } of entry.attachments ?? []) {
    if (ours.has(sha256)) continue;
    const bytes = theirGround.parts.read(sha256);
    if (bytes !== undefined) keepPart(into.store, bytes);
    else findings.push(logbookFinding("logbook/missing-attachment", name));
  }
}

/**
 * A record that came over may rest on a configuration that stayed behind (kept elsewhere in the other logbook, or
 * damaged here): then its entry is kept once more, with a line of its own.
 */
function settleConfigurations(
  { into, theirGround, findings }: Merging,
  place: ScreenPlace,
  theirs: ScreenRecords,
): void {
  const ours = readScreen(into.store, place);
  const resolveOurs = configurationResolver(into.store, ours);
  const resolveTheirs = configurationResolver(theirGround.logbook.store, theirs);
  for (const [id, entry] of theirs.entries) {
    if (!ours.entries.has(id) || resolveOurs(entry.configuration) !== undefined) continue;
    const resolved = resolveTheirs(entry.configuration);
    if (resolved === undefined) {
      findings.push(logbookFinding("logbook/lost-configuration", id));
      continue;
    }
    const line = lineToKeep(into.store, ours, entry.unit.profileId, resolved.text, undefined);
    const [record] = theirs.lines.get(id) ?? [];
    if (record !== undefined && line !== undefined) keepRecordFile(into.store, entry, [record.text, line]);
  }
}
