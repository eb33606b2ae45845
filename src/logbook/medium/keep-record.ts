import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { EntrySignature } from "../../model/index.ts";
import { signDocument } from "../signing/index.ts";
import { keepFile, keepMark, sweepUnfinished } from "./durable-file.ts";
import { type FileStore, faultCode } from "./file-store.ts";
import { pack, packLines } from "./gzip-lines.ts";
import { fileName, PARTS, screenFolder } from "./layout.ts";
import { logbookFinding } from "./logbook-findings.ts";
import { FORMAT_VERSION, type LogbookRecord, wrongMember } from "./records.ts";

/** A key to sign with. */
export interface SigningKey {
  /** PKCS #8 in PEM. */
  readonly privateKeyPem: string;
  readonly passphrase?: string;
}

/** Writes the file of a record and its mark, and sweeps what others left unfinished beside it. */
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

/** A mark that cannot be written costs nothing that was recorded. */
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

/** Keeps an attachment, unless it is here already. */
export function keepPart(store: FileStore, bytes: Uint8Array): void {
  const stem = sha256(bytes);
  const packed = pack(bytes);
  const name = fileName(stem, packed);
  keepFile(store, PARTS, name, packed);
  markOrFinding(store, PARTS, stem, name);
}

/** A signature as a record. */
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

/** @throws BoothkeepError usage.wrong */
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
