import type { Finding } from "../../base/findings/index.ts";
import type { Entry } from "../../model/index.ts";
import { configurationResolver } from "./configurations.ts";
import { withStore } from "./faults.ts";
import type { FileStore } from "./file-store.ts";
import { type HistoryFilter, screenPlaces } from "./history.ts";
import { lineToKeep } from "./keeping.ts";
import type { Logbook } from "./logbook.ts";
import { logbookFinding } from "./logbook-findings.ts";
import { readAttachment } from "./read-entry.ts";
import { keepPart, keepRecordFile } from "./record.ts";
import type { LogbookRecord } from "./records.ts";
import { keepReference, readReferences } from "./references.ts";
import { readScreen, type ScreenPlace, type ScreenRecords } from "./screen-records.ts";

export interface MergeOptions {
  /** Brings over one site or one screen only. */
  readonly only?: Pick<HistoryFilter, "siteId" | "screenId">;
  /** Called after each screen. */
  readonly onProgress?: (done: number, total: number) => void;
}

export interface MergeReport {
  readonly entriesAdded: number;
  readonly withdrawalsAdded: number;
  readonly signaturesAdded: number;
  /** What could not be trusted in the other logbook; none of it was brought over. */
  readonly findings: readonly Finding[];
}

/**
 * Brings into a logbook what another one has besides. Logbooks merge by set union: whatever the order, the same
 * entries result. Damaged records are not brought over. The other logbook is only read; its signature policy stays
 * where it is. May be interrupted at any moment and run again.
 *
 * @throws BoothkeepError output.no-space, output.read-only, input.no-permission, output.failed
 */
export function mergeLogbook(into: Logbook, from: Logbook, options: MergeOptions = {}): MergeReport {
  const report = { entriesAdded: 0, withdrawalsAdded: 0, signaturesAdded: 0, findings: [] as Finding[] };
  const places = screenPlaces(from.store, options.only);
  const profiles = new Set<string>();
  for (const [index, place] of places.entries()) {
    const theirs = withStore(from.store, "", () => readScreen(from.store, place));
    report.findings.push(...theirs.findings);
    withStore(into.store, "", () => {
      for (const record of missingRecords(into.store, place, theirs)) {
        if (record.record.kind === "boothkeep.entry") {
          bringBasis(into, from, record.record, profiles, report.findings);
          report.entriesAdded += 1;
        } else if (record.record.kind === "boothkeep.withdrawal") {
          report.withdrawalsAdded += 1;
        } else {
          report.signaturesAdded += 1;
        }
        report.findings.push(...keepRecordFile(into.store, record.record, record.lines));
      }
      settleConfigurations(into.store, from.store, place, theirs);
    });
    options.onProgress?.(index + 1, places.length);
  }
  return report;
}

interface MissingRecord {
  readonly record: LogbookRecord;
  readonly lines: readonly string[];
}

/** What the other screen has besides, earlier entries first, so that an interrupted merging leaves no gaps. */
function missingRecords(
  store: FileStore,
  place: ScreenPlace,
  theirs: ScreenRecords,
): readonly MissingRecord[] {
  const ours = readScreen(store, place);
  return [...theirs.lines]
    .filter(([id]) => !ours.lines.has(id))
    .map(([id, lines]) => ({
      record: (theirs.entries.get(id) ?? theirs.withdrawals.get(id) ?? theirs.signatures.get(id))!,
      lines: lines.map((line) => line.text),
    }))
    .sort((a, b) => orderOf(a.record) - orderOf(b.record));
}

/** Entries by number, then what is said about them. */
function orderOf(record: LogbookRecord): number {
  if (record.kind === "boothkeep.entry") return record.number;
  return record.kind === "boothkeep.withdrawal" ? Number.MAX_SAFE_INTEGER - 1 : Number.MAX_SAFE_INTEGER;
}

/** What an entry rests on goes first: the references of its profile, its attachments. */
function bringBasis(
  into: Logbook,
  from: Logbook,
  entry: Entry,
  profiles: Set<string>,
  findings: Finding[],
): void {
  if (!profiles.has(entry.unit.profileId)) {
    profiles.add(entry.unit.profileId);
    for (const { role, text } of readReferences(from.store, entry.unit.profileId)) {
      keepReference(into.store, entry.unit.profileId, role, text);
    }
  }
  for (const attachment of entry.attachments ?? []) {
    try {
      keepPart(into.store, readAttachment(from, attachment.sha256));
    } catch (error) {
      if ((error as { code?: string }).code !== "logbook.lost-attachment") throw error;
      findings.push(logbookFinding("logbook/missing-attachment", attachment.name));
    }
  }
}

/**
 * A record that came over may rest on a configuration that stayed behind (kept elsewhere in the other logbook, or
 * damaged here): then its entry is kept once more, with a line of its own.
 */
function settleConfigurations(
  into: FileStore,
  from: FileStore,
  place: ScreenPlace,
  theirs: ScreenRecords,
): void {
  const ours = readScreen(into, place);
  const resolveOurs = configurationResolver(into, ours);
  const resolveTheirs = configurationResolver(from, theirs);
  for (const [id, entry] of theirs.entries) {
    if (resolveOurs(entry.configuration) !== undefined) continue;
    const resolved = resolveTheirs(entry.configuration);
    if (resolved === undefined) continue;
    const line = lineToKeep(into, ours, entry.unit.profileId, resolved.text, undefined);
    const [record] = theirs.lines.get(id) ?? [];
    if (record !== undefined && line !== undefined) keepRecordFile(into, entry, [record.text, line]);
  }
}
