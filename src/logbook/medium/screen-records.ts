import type { Sha256 } from "../../base/canonical/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { Entry, EntrySignature, Withdrawal } from "../../model/index.ts";
import { readBound } from "./bound-file.ts";
import type { FileStore } from "./file-store.ts";
import {
  belongsTo,
  isRecordStem,
  type KeptFile,
  readFolderOnce,
  readLines,
  readRecordFile,
  readSteadily,
} from "./kept-files.ts";
import { BOUND, ENTRIES, folderName } from "./layout.ts";
import { logbookFinding } from "./logbook-findings.ts";
import type { IdentifiedRecord, KeptConfiguration, Line, LogbookRecord } from "./records.ts";

/** All that is kept of one screen, as far as it can be trusted. */
export interface ScreenRecords {
  readonly entries: ReadonlyMap<Sha256, Entry>;
  readonly withdrawals: ReadonlyMap<Sha256, Withdrawal>;
  readonly signatures: ReadonlyMap<Sha256, EntrySignature>;
  /** All ways in which each configuration is kept. */
  readonly configurations: ReadonlyMap<Sha256, readonly KeptConfiguration[]>;
  /** Copies of references that the site's bound files carry. */
  readonly references: ReadonlyMap<Sha256, KeptConfiguration>;
  /** The lines of each record as they are kept: the record itself, then what its file keeps besides. */
  readonly lines: ReadonlyMap<Sha256, readonly Line[]>;
  /** Ids of records whose only file is damaged, or holds something else. */
  readonly damaged: ReadonlySet<Sha256>;
  /** Ids that records of the screen name and that nothing here has. */
  readonly missing: ReadonlySet<Sha256>;
  /** First digits of the ids of records that only a damaged part of a bound file held. */
  readonly lostInBound: readonly string[];
  /** Bound files of the site that do not say any more what they hold. */
  readonly sealed: readonly string[];
  /** Digests of the site's bound files that are here, damaged or not. */
  readonly boundDigests: ReadonlySet<string>;
  readonly findings: readonly Finding[];
}

/** Folder names of a screen. */
export interface ScreenPlace {
  readonly site: string;
  readonly screen: string;
}

export function placeOf(siteId: string, screenId: string): ScreenPlace {
  return { site: folderName(siteId), screen: folderName(screenId) };
}

/** One of a screen's records, to learn the ids of its site and screen from. */
export function anyRecord({ entries, withdrawals, signatures }: ScreenRecords): LogbookRecord | undefined {
  return [...entries.values(), ...withdrawals.values(), ...signatures.values()][0];
}

/** Reads all records of a screen, from its own folder and from the bound files of its site, but for one file. */
export function readScreen(
  store: FileStore,
  place: ScreenPlace,
  { except }: { readonly except?: string } = {},
): ScreenRecords {
  return readSteadily(() => readOnce(store, place, except));
}

function readOnce(store: FileStore, { site, screen }: ScreenPlace, except?: string): ScreenRecords {
  const gathering = new Gathering(site, screen);
  // The screen's own folder first: a binding writes the bound file before it takes anything from the folder.
  const loose = readFolderOnce(store, `${ENTRIES}/${site}/${screen}`);
  gathering.findings.push(...loose.findings);
  for (const file of loose.files) {
    const read = readRecordFile(file, site, screen);
    if ("code" in read) gathering.findings.push(read);
    else gathering.take(read);
  }
  const bound = readFolderOnce(store, BOUND, (stem) => stem === site);
  gathering.findings.push(...bound.findings.filter((finding) => finding.code !== "logbook/foreign-file"));
  for (const file of [...bound.files, ...bound.damaged]) {
    if (file.path !== except) gathering.takeBound(file);
  }
  gathering.sealed.push(...bound.unreadable.map(({ path }) => path));
  const digests = [...bound.files, ...bound.damaged, ...bound.unreadable].map(({ digest }) => digest);
  return gathering.finish(loose.stems.filter(isRecordStem), new Set(digests));
}

class Gathering {
  readonly findings: Finding[] = [];
  readonly sealed: string[] = [];
  private readonly listedInBound: string[] = [];
  private readonly entries = new Map<Sha256, Entry>();
  private readonly withdrawals = new Map<Sha256, Withdrawal>();
  private readonly signatures = new Map<Sha256, EntrySignature>();
  private readonly configurations = new Map<Sha256, KeptConfiguration[]>();
  private readonly references = new Map<Sha256, KeptConfiguration>();
  private readonly lines = new Map<Sha256, readonly Line[]>();
  private readonly site: string;
  private readonly screen: string;

  constructor(site: string, screen: string) {
    this.site = site;
    this.screen = screen;
  }

  /** Takes lines in: records, each followed by the configurations that its file keeps. */
  take(lines: readonly Line[]): void {
    let group: Line[] = [];
    for (const line of lines) {
      if (line.kind === "configuration") {
        this.keep(line.item);
        group.push(line);
        continue;
      }
      group = [line];
      this.add(line.item);
      if ((this.lines.get(line.item.id)?.length ?? 0) <= 1) this.lines.set(line.item.id, group);
    }
  }

  /** Takes in what a bound file, whole or damaged, has of this screen. */
  takeBound(file: KeptFile): void {
    const bound = readBound(file.bytes);
    if (bound === undefined) {
      this.findings.push(logbookFinding("logbook/not-understood", file.path));
      this.sealed.push(file.path);
      return;
    }
    for (const member of bound.index.members) {
      if (member.screenId !== undefined && folderName(member.screenId) !== this.screen) continue;
      const texts = bound.lines(member);
      const lines = readLines(texts);
      if (lines !== undefined && member.screenId === undefined) this.takeReferences(lines);
      else if (lines !== undefined && belongsTo(lines, this.site, this.screen)) this.take(lines);
      else {
        this.listedInBound.push(...(member.records ?? []));
        if (texts !== undefined) this.findings.push(logbookFinding("logbook/not-understood", file.path));
      }
    }
  }

  private takeReferences(lines: readonly Line[]): void {
    for (const { kind, item } of lines) if (kind === "configuration") this.references.set(item.sha256, item);
  }

  finish(looseStems: readonly Sha256[], boundDigests: ReadonlySet<string>): ScreenRecords {
    const damaged = new Set(looseStems.filter((stem) => !this.lines.has(stem)));
    const missing = new Set([...this.namedIds()].filter((id) => !this.lines.has(id) && !damaged.has(id)));
    for (const id of missing) {
      const place = `${this.site}/${this.screen}`;
      this.findings.push(logbookFinding("logbook/missing-entry", id, { place }));
    }
    const known = [...this.lines.keys(), ...damaged];
    const lostInBound = this.listedInBound.filter((start) => !known.some((id) => id.startsWith(start)));
    const { entries, withdrawals, signatures, configurations, references, lines, findings, sealed } = this;
    return {
      ...{ entries, withdrawals, signatures, configurations, references, lines },
      ...{ damaged, missing, lostInBound, sealed, boundDigests, findings },
    };
  }

  private add({ id, record }: IdentifiedRecord): void {
    if (record.kind === "boothkeep.entry") this.entries.set(id, record);
    else if (record.kind === "boothkeep.withdrawal") this.withdrawals.set(id, record);
    else this.signatures.set(id, record);
  }

  private keep(item: KeptConfiguration): void {
    const ways = this.configurations.get(item.sha256) ?? [];
    if (!ways.some((way) => way.line === item.line)) this.configurations.set(item.sha256, [...ways, item]);
  }

  private namedIds(): ReadonlySet<Sha256> {
    return new Set([
      ...[...this.entries.values()].flatMap((entry) => entry.previous),
      ...[...this.withdrawals.values()].map((withdrawal) => withdrawal.entry),
      ...[...this.signatures.values()].map((signature) => signature.record),
    ]);
  }
}
