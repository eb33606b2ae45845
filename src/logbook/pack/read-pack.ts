import { canonicalHash, sha256 } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import {
  type Entry,
  type EntrySignature,
  type PackManifest,
  readDocument,
  readJson,
} from "../../model/index.ts";
import { type AttachedFile, isRecord, type KeptDocument } from "../entries/index.ts";
import {
  type DocumentSignature,
  judgeSignature,
  type SignatureVerdict,
  type TrustedKey,
} from "../signing/index.ts";
import { checkManifest } from "./check-manifest.ts";
import { MANIFEST_NAME, type PackRole, SIGNATURE_NAME } from "./pack-files.ts";
import { refusal } from "./refusals.ts";
import { isZip, type PreviousEntry } from "./write-pack.ts";
import { unzipBytes } from "./zip.ts";

/** A handover pack whose every byte was checked. What the documents say is still to be validated. */
export interface Pack {
  readonly manifest: PackManifest;
  /** As it was packed, of whatever schema version. */
  readonly configuration: KeptDocument;
  readonly profile: KeptDocument;
  readonly entry?: Entry;
  readonly entrySignatures: readonly EntrySignature[];
  readonly previous: readonly PreviousEntry[];
  readonly sheets: { readonly text: string; readonly html: string };
  readonly cautions: string;
  readonly attachments: readonly AttachedFile[];
  readonly signature: SignatureVerdict | { readonly kind: "unsigned" };
}

/** Whose signatures are believed. */
export interface ReadPackOptions {
  readonly trustedKeys?: readonly TrustedKey[];
}

/**
 * Reads a handover pack, trusting nothing: not its names, sizes, structure nor contents.
 *
 * @throws BoothkeepError with a code that starts with "pack."; a broken signature is a verdict, not an error
 */
export async function readPack(bytes: Uint8Array, options: ReadPackOptions = {}): Promise<Pack> {
  const files = new Map((await unzipBytes(bytes)).map((file) => [file.name, file.bytes]));
  const manifest = readManifest(files.get(MANIFEST_NAME));
  checkFiles(manifest, files);
  const content = new PackFiles(manifest, files);
  const configuration = content.json("configuration");
  if (canonicalHash(configuration) !== manifest.configuration) {
    throw refusal("wrong-hash", "The configuration is not the one that the manifest names.");
  }
  const entry = content.optionalEntry(manifest, configuration);
  const profile = content.json("unit-profile");
  const previous = content.previous();
  const pack: Pack = {
    manifest,
    configuration,
    profile,
    ...(entry === undefined ? {} : { entry }),
    entrySignatures: content.entrySignatures(),
    previous,
    sheets: { text: content.text("sheet-text"), html: content.text("sheet-html") },
    cautions: content.text("cautions"),
    attachments: content.attachments(),
    signature: verdictOf(manifest, files.get(SIGNATURE_NAME), options.trustedKeys ?? []),
  };
  checkManifest(manifest, { configuration, profile, entry, previous });
  return pack;
}

function readManifest(bytes: Uint8Array | undefined): PackManifest {
  if (bytes === undefined) throw refusal("no-manifest", `The pack has no '${MANIFEST_NAME}'.`);
  try {
    return readDocument(bytes, { file: MANIFEST_NAME, expect: "boothkeep.pack" }).document;
  } catch (error) {
    if (!(error instanceof BoothkeepError) || error.code === "document.newer-version") throw error;
    throw refusal("no-manifest", `The pack's manifest cannot be read: ${error.message}`);
  }
}

/** The manifest lists exactly what is there, and every file is the one that it vouches for. */
function checkFiles(manifest: PackManifest, files: ReadonlyMap<string, Uint8Array>): void {
  const listed = new Map(manifest.files.map((file) => [file.name, file]));
  if (listed.size !== manifest.files.length) {
    throw refusal("duplicate-name", "The manifest lists a file twice.");
  }
  for (const { name, sizeBytes, sha256: expected } of manifest.files) {
    const bytes = files.get(name);
    if (bytes === undefined) throw refusal("missing-file", `The pack lacks '${name}'.`, name);
    if (bytes.length !== sizeBytes || sha256(bytes) !== expected) {
      throw refusal("wrong-hash", `'${name}' is not the file that the manifest vouches for.`, name);
    }
    if (isZip(bytes)) throw refusal("nested-archive", `'${name}' is an archive; a pack holds none.`, name);
  }
  for (const name of files.keys()) {
    if (!listed.has(name) && name !== MANIFEST_NAME && name !== SIGNATURE_NAME) {
      throw refusal("extra-file", `The pack holds '${name}', which its manifest does not list.`, name);
    }
  }
}

interface NamedBytes {
  readonly name: string;
  readonly label: string | undefined;
  readonly bytes: Uint8Array;
}

class PackFiles {
  private readonly files: readonly (NamedBytes & { readonly role: PackRole })[];

  constructor(manifest: PackManifest, files: ReadonlyMap<string, Uint8Array>) {
    this.files = manifest.files.map(({ name, role, label }) => ({
      name,
      role,
      label,
      bytes: files.get(name)!,
    }));
  }

  all(role: PackRole): readonly NamedBytes[] {
    return this.files.filter((file) => file.role === role);
  }

  json(role: PackRole): KeptDocument {
    return this.parse(this.one(role));
  }

  text(role: PackRole): string {
    const { name, bytes } = this.one(role);
    try {
      return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
    } catch {
      throw refusal("damaged-file", `'${name}' is not text in UTF-8.`, name);
    }
  }

  parse({ name, bytes }: NamedBytes): KeptDocument {
    try {
      const value = readJson(bytes);
      if (typeof value === "object" && value !== null && !Array.isArray(value)) return value as KeptDocument;
    } catch (error) {
      if (!(error instanceof BoothkeepError)) throw error;
      throw refusal("damaged-file", `'${name}' cannot be read: ${error.message}`, name);
    }
    throw refusal("damaged-file", `'${name}' holds no document.`, name);
  }

  optionalEntry(manifest: PackManifest, configuration: KeptDocument): Entry | undefined {
    if (manifest.entry === undefined && this.all("entry").length === 0) return undefined;
    const entry = this.entry(this.one("entry"));
    if (canonicalHash(entry) !== manifest.entry || entry.configuration !== canonicalHash(configuration)) {
      throw refusal("wrong-hash", "The entry is not the one that the manifest names.");
    }
    return entry;
  }

  previous(): readonly PreviousEntry[] {
    const entries = this.all("previous-entry").map((file) => this.entry(file));
    const configurations = this.all("previous-configuration").map((file) => this.parse(file));
    return entries.map((entry, index) => {
      const configuration = configurations[index];
      if (configuration === undefined || canonicalHash(configuration) !== entry.configuration) {
        throw refusal("wrong-hash", `Previous entry ${entry.number} comes with another configuration.`);
      }
      return { entry, configuration };
    });
  }

  entrySignatures(): readonly EntrySignature[] {
    return this.all("entry-signature").map((file) => {
      const signature: unknown = this.parse(file);
      if (isRecord(signature) && signature.kind === "boothkeep.signature") return signature;
      throw refusal("damaged-file", `'${file.name}' is no signature.`, file.name);
    });
  }

  attachments(): readonly AttachedFile[] {
    return this.all("attachment").map(({ name, label, bytes }) => ({ name: label ?? name, bytes }));
  }

  private one(role: PackRole): NamedBytes {
    const [file, ...more] = this.all(role);
    if (file === undefined) throw refusal("missing-file", `The pack has no file for '${role}'.`);
    if (more.length > 0) throw refusal("extra-file", `The pack has more than one file for '${role}'.`);
    return file;
  }

  private entry(file: NamedBytes): Entry {
    try {
      return readDocument(file.bytes, { file: file.name, expect: "boothkeep.entry" }).document;
    } catch (error) {
      if (!(error instanceof BoothkeepError)) throw error;
      throw refusal("damaged-file", `'${file.name}' is no entry: ${error.message}`, file.name);
    }
  }
}

function verdictOf(
  manifest: PackManifest,
  bytes: Uint8Array | undefined,
  trustedKeys: readonly TrustedKey[],
): Pack["signature"] {
  if (bytes === undefined) return { kind: "unsigned" };
  try {
    const { algorithm, publicKey, value } = readJson(bytes) as Partial<DocumentSignature>;
    if (algorithm === "Ed25519" && typeof publicKey === "string" && typeof value === "string") {
      return judgeSignature(manifest, { algorithm, publicKey, value }, trustedKeys);
    }
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
  }
  return { kind: "broken", fingerprint: "" };
}
