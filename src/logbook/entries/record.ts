import { canonicalText, type Sha256, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { Attachment, Entry, EntrySignature } from "../../model/index.ts";
import { signDocument } from "../signing/index.ts";
import { keepFile, keepMark, sweepUnfinished } from "./durable-file.ts";
import { withStore } from "./faults.ts";
import { type FileStore, faultCode } from "./file-store.ts";
import { pack, packLines } from "./gzip-lines.ts";
import { screenHistory } from "./history.ts";
import { lineToKeep } from "./keeping.ts";
import { fileName, PARTS, screenFolder } from "./layout.ts";
import type { Logbook } from "./logbook.ts";
import { logbookFinding } from "./logbook-findings.ts";
import { FORMAT_VERSION, type LogbookRecord, recordLine, wrongMember } from "./records.ts";
import { placeOf, readScreen, type ScreenRecords } from "./screen-records.ts";

/** A JSON document as the logbook keeps it: any schema version, untouched. */
export type KeptDocument = Readonly<Record<string, unknown>>;

/** A key to sign with. */
export interface SigningKey {
  /** PKCS #8 in PEM. */
  readonly privateKeyPem: string;
  readonly passphrase?: string;
}

export interface RecordOptions {
  /** A valid configuration: whoever records has validated it. Names the site, the screen and the unit. */
  readonly configuration: KeptDocument;
  readonly reason: Entry["reason"];
  /** The writer's clock, RFC 3339 with offset. A label, never the order. */
  readonly recordedAt: string;
  /** A person, a team or a role. */
  readonly recordedBy: string;
  readonly notes?: string;
  /** Files to keep byte for byte: the unit's own file, the unit profile. */
  readonly attachments?: readonly AttachedFile[];
  readonly key?: SigningKey;
}

export interface AttachedFile {
  /** A label, never used as a path. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface RecordedEntry {
  readonly id: Sha256;
  readonly entry: Entry;
  /** What could not be read or trusted among the screen's earlier records. The new entry does not depend on it. */
  readonly findings: readonly Finding[];
}

const MOST_PREVIOUS = 64;

/**
 * Records a configuration. When this returns, the entry is on the medium and survives a power loss; when it throws,
 * the entry may be there whole or not be there, and everything earlier is untouched. Several processes may record at
 * once; none waits for another.
 *
 * @throws BoothkeepError usage.wrong, document.invalid, signing.bad-key, output.no-space, output.read-only,
 *   input.no-permission, output.failed
 */
export function record(logbook: Logbook, options: RecordOptions): RecordedEntry {
  const { store } = logbook;
  const subject = subjectOf(options.configuration);
  const text = canonicalText(options.configuration);
  return withStore(store, "", () => {
    const records = readScreen(store, placeOf(subject.siteId, subject.screenId));
    const last = lastOnes(records);
    const entry: Entry = {
      kind: "boothkeep.entry",
      schemaVersion: FORMAT_VERSION,
      siteId: subject.siteId,
      screenId: subject.screenId,
      ...last,
      reason: options.reason,
      recordedAt: options.recordedAt,
      recordedBy: options.recordedBy,
      unit: { profileId: subject.profileId, serial: subject.serial },
      configuration: sha256(text),
      ...(options.notes === undefined ? {} : { notes: options.notes }),
      ...attachmentsOf(options.attachments ?? []),
    };
    requireFit(entry);
    const line = recordLine(entry);
    const id = sha256(line);
    const signature = options.key === undefined ? [] : [recordLine(signatureOf(entry, id, options.key))];

    for (const { bytes } of options.attachments ?? []) keepPart(store, bytes);
    const latest = screenHistory(records).at(-1)?.entry.configuration;
    const kept = lineToKeep(store, records, subject.profileId, text, latest);
    const findings = keepRecordFile(store, entry, [
      line,
      ...(kept === undefined ? [] : [kept]),
      ...signature,
    ]);
    return { id, entry, findings: [...records.findings, ...findings] };
  });
}

/** @internal Writes the file of a record and its mark, and sweeps what others left unfinished beside it. */
export function keepRecordFile(
  store: FileStore,
  record: LogbookRecord,
  lines: readonly string[],
): readonly Finding[] {
  const folder = screenFolder(record.siteId, record.screenId);
  const id = sha256(lines[0]!);
  const bytes = packLines(lines);
  const name = fileName(id, bytes);
  keepFile(store, folder, name, bytes);
  sweepUnfinished(store, folder);
  return markOrFinding(store, folder, id, name);
}

/** @internal A mark that cannot be written costs nothing that was recorded. */
export function markOrFinding(
  store: FileStore,
  folder: string,
  stem: string,
  name: string,
): readonly Finding[] {
  try {
    keepMark(store, folder, stem);
    return [];
  } catch (error) {
    if (faultCode(error) === "") throw error;
    return [logbookFinding("logbook/unmarked-file", `${folder}/${name}`)];
  }
}

/** @internal */
export function keepPart(store: FileStore, bytes: Uint8Array): void {
  const stem = sha256(bytes);
  const packed = pack(bytes);
  const name = fileName(stem, packed);
  keepFile(store, PARTS, name, packed);
  markOrFinding(store, PARTS, stem, name);
}

/** @internal */
export function signatureOf(
  record: Exclude<LogbookRecord, EntrySignature>,
  id: Sha256,
  { privateKeyPem, passphrase }: SigningKey,
): EntrySignature {
  return {
    kind: "boothkeep.signature",
    schemaVersion: FORMAT_VERSION,
    siteId: record.siteId,
    screenId: record.screenId,
    record: id,
    ...signDocument(record, privateKeyPem, passphrase === undefined ? {} : { passphrase }),
  };
}

/** @internal @throws BoothkeepError usage.wrong */
export function requireFit(record: LogbookRecord): void {
  const wrong = wrongMember(record);
  if (wrong === undefined) return;
  throw new BoothkeepError("usage.wrong", `The record's '${wrong}' is missing, too long or malformed.`, {
    place: { pointer: `/${wrong}` },
    next:
      wrong === "recordedAt"
        ? "Give date and time with offset as in RFC 3339, for example 2026-03-02T23:40:00+01:00."
        : "Compare it with schemas/entry.schema.json.",
  });
}

/**
 * What a new entry follows: the entries that none follows yet, damaged ones among them by their names. Its number is
 * greater than any that these can have.
 */
function lastOnes(records: ScreenRecords): Pick<Entry, "number" | "previous"> {
  const items = screenHistory(records);
  const highest = Math.max(0, ...items.map((item) => item.entry.number));
  const followed = new Set(items.flatMap((item) => item.entry.previous));
  const latest = items.filter((item) => item.isLatest).map((item) => item.id);
  const damaged = [...records.damaged].filter((id) => !followed.has(id));
  return {
    number: highest + records.damaged.size + 1,
    previous: [...damaged, ...latest].slice(-MOST_PREVIOUS).sort(),
  };
}

function attachmentsOf(files: readonly AttachedFile[]): { readonly attachments?: readonly Attachment[] } {
  if (files.length === 0) return {};
  return {
    attachments: files.map(({ name, bytes }) => ({ name, sha256: sha256(bytes), sizeBytes: bytes.length })),
  };
}

interface Subject {
  readonly siteId: string;
  readonly screenId: string;
  readonly profileId: string;
  readonly serial: string;
}

function subjectOf(configuration: KeptDocument): Subject {
  const read = (part: string, name: string): string => {
    const value = (configuration[part] as KeptDocument | undefined)?.[name];
    if (typeof value === "string" && value !== "") return value;
    throw new BoothkeepError("document.invalid", `The configuration does not say its ${part}'s ${name}.`, {
      place: { pointer: `/${part}/${name}` },
      next: "Validate the configuration first; it must name its site, its screen and its unit.",
    });
  };
  return {
    siteId: read("screen", "siteId"),
    screenId: read("screen", "screenId"),
    profileId: read("unit", "profileId"),
    serial: read("unit", "serial"),
  };
}
