import { canonicalText, type Sha256, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { Attachment, Entry } from "../../model/index.ts";
import {
  FORMAT_VERSION,
  type KeptDocument,
  keepPart,
  keepRecordFile,
  type Logbook,
  lineToKeep,
  numberedBeyond,
  placeOf,
  readScreen,
  recordLine,
  requireFit,
  type ScreenRecords,
  type SigningKey,
  screenEntries,
  signatureOf,
  withStore,
} from "../medium/index.ts";

/** A configuration with who records it, when and why. */
export interface RecordOptions {
  /** A valid configuration: whoever records has validated it. Names the site, the screen and the unit. */
  readonly configuration: KeptDocument;
  readonly reason: Entry["reason"];
  /** The writer's clock, RFC 3339 with offset. A label, never the order. */
  readonly recordedAt: string;
  /** A person, a team or a role. */
  readonly recordedBy: string;
  readonly notes?: string;
  /** Files to keep byte for byte: the unit's own file, a photograph. */
  readonly attachments?: readonly AttachedFile[];
  /**
   * Documents that the configuration cannot be used without. Each is kept once, whatever number of entries names it, so that
   * the logbook is enough: also after years, and on a computer that has nothing else.
   */
  readonly documents?: SharedDocumentFiles;
  readonly key?: SigningKey;
}

/** Documents that many entries share, as JSON. */
export interface SharedDocumentFiles {
  /** Profile of the unit that the configuration is for. */
  readonly profile?: KeptDocument | undefined;
  /** The map by which the unit's own export was read, or is to be written. */
  readonly fieldMap?: KeptDocument | undefined;
}

/** Names of the attachments that are shared documents. */
export const PROFILE_ATTACHMENT = "unit-profile.json";
export const FIELD_MAP_ATTACHMENT = "field-map.json";

/** A file to keep beside a configuration. */
export interface AttachedFile {
  /** A label, never used as a path. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The entry that a recording made. */
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
  const attachments = [...(options.attachments ?? []), ...documentsOf(options)];
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
      ...attachmentsOf(attachments),
    };
    requireFit(entry);
    const line = recordLine(entry);
    const id = sha256(line);
    const signature = options.key === undefined ? [] : [recordLine(signatureOf(entry, id, options.key))];

    for (const { bytes } of attachments) keepPart(store, bytes);
    const latest = screenEntries(records).at(-1)?.entry.configuration;
    const kept = lineToKeep(store, records, subject.profileId, text, latest);
    const findings = keepRecordFile(store, entry, [
      line,
      ...(kept === undefined ? [] : [kept]),
      ...signature,
    ]);
    return { id, entry, findings: [...records.findings, ...findings] };
  });
}

/**
 * What a new entry follows: the entries that none follows yet, damaged ones among them by their names. Its number is
 * greater than any that these can have.
 */
function lastOnes(records: ScreenRecords): Pick<Entry, "number" | "previous"> {
  // An entry with a number that nothing explains is not built on: else it would end all recording of its screen.
  const beyond = numberedBeyond(records.entries);
  const items = screenEntries(records).filter(({ id }) => !beyond.has(id));
  const highest = Math.max(0, ...items.map((item) => item.entry.number));
  const followed = new Set(items.flatMap((item) => item.entry.previous));
  const latest = items.filter((item) => !followed.has(item.id)).map((item) => item.id);
  const damaged = [...records.damaged].filter((id) => !followed.has(id));
  return {
    number: highest + records.damaged.size + 1,
    previous: [...damaged, ...latest].slice(-MOST_PREVIOUS).sort(),
  };
}

/** In RFC 8785 form, so that one document is one file however it was indented. */
function documentsOf({ documents = {} }: RecordOptions): readonly AttachedFile[] {
  const named = [
    [PROFILE_ATTACHMENT, documents.profile],
    [FIELD_MAP_ATTACHMENT, documents.fieldMap],
  ] as const;
  return named.flatMap(([name, document]) =>
    document === undefined ? [] : [{ name, bytes: new TextEncoder().encode(canonicalText(document)) }],
  );
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
