import { canonicalHash } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import type { Entry, EntrySignature, PackManifest } from "../../model/index.ts";
import type { AttachedFile, KeptDocument, SigningKey } from "../entries/index.ts";
import { signDocument } from "../signing/index.ts";
import { LIMITS } from "./limits.ts";
import {
  MANIFEST_NAME,
  type ManifestedFile,
  numberedName,
  packFile,
  readableJson,
  SIGNATURE_NAME,
  SINGLE_FILES,
} from "./pack-files.ts";
import { zipBytes } from "./zip.ts";

/** An earlier entry that goes along in a pack. */
export interface PreviousEntry {
  readonly entry: Entry;
  readonly configuration: KeptDocument;
}

/** What goes into a handover pack. */
export interface PackContent {
  /** RFC 3339 with offset. */
  readonly createdAt: string;
  readonly createdBy: string;
  readonly configuration: KeptDocument;
  /** The unit profile that the configuration was made for. */
  readonly profile: KeptDocument;
  /** The logbook entry that keeps this configuration, and its signatures. */
  readonly entry?: Entry;
  readonly entrySignatures?: readonly EntrySignature[];
  readonly previous?: readonly PreviousEntry[];
  /** The printed sheet, drawn by whoever makes the pack. */
  readonly sheets: { readonly text: string; readonly html: string };
  /** The usual cautions, as text. */
  readonly cautions: string;
  readonly attachments?: readonly AttachedFile[];
  readonly key?: SigningKey;
}

/**
 * Makes a handover pack: a zip that a booth keeps and anybody can open. The same content gives the same bytes.
 *
 * @throws BoothkeepError pack.too-large, pack.nested-archive, document.invalid, usage.wrong, signing.bad-key
 */
export async function writePack(content: PackContent): Promise<Uint8Array> {
  const files = filesOf(content);
  requireWithin(files);
  const manifest = manifestOf(content, files);
  const listed = [...files].sort((a, b) => (a.listed.name < b.listed.name ? -1 : 1));
  const signature = signatureFile(manifest, content.key);
  return zipBytes([
    { name: MANIFEST_NAME, bytes: new TextEncoder().encode(readableJson(manifest)) },
    ...(signature === undefined ? [] : [{ name: SIGNATURE_NAME, bytes: signature }]),
    ...listed.map(({ listed: { name }, bytes }) => ({ name, bytes })),
  ]);
}

function filesOf(content: PackContent): readonly ManifestedFile[] {
  const { entry, entrySignatures = [], previous = [], attachments = [] } = content;
  return [
    packFile("configuration", SINGLE_FILES.configuration, readableJson(content.configuration)),
    packFile("unit-profile", SINGLE_FILES["unit-profile"], readableJson(content.profile)),
    packFile("sheet-text", SINGLE_FILES["sheet-text"], content.sheets.text),
    packFile("sheet-html", SINGLE_FILES["sheet-html"], content.sheets.html),
    packFile("cautions", SINGLE_FILES.cautions, content.cautions),
    ...(entry === undefined ? [] : [packFile("entry", SINGLE_FILES.entry, readableJson(entry))]),
    ...entrySignatures.map((signature, index) =>
      packFile(
        "entry-signature",
        numberedName("entry-signature", index + 1, "json"),
        readableJson(signature),
      ),
    ),
    ...previous.flatMap((item, index) => [
      packFile("previous-entry", numberedName("previous-entry", index + 1, "json"), readableJson(item.entry)),
      packFile(
        "previous-configuration",
        numberedName("previous-configuration", index + 1, "json"),
        readableJson(item.configuration),
      ),
    ]),
    ...attachments.map(({ name, bytes }, index) =>
      packFile("attachment", numberedName("attachment", index + 1, "bin"), bytes, name),
    ),
  ];
}

function manifestOf(content: PackContent, files: readonly ManifestedFile[]): PackManifest {
  const text = (part: string, name: string) => {
    const value = (content.configuration[part] as KeptDocument | undefined)?.[name];
    if (typeof value === "string") return value;
    throw new BoothkeepError("document.invalid", `The configuration does not say its ${part}'s ${name}.`, {
      place: { pointer: `/${part}/${name}` },
      next: "Validate the configuration first; it must name its site, its screen and its unit.",
    });
  };
  return {
    kind: "boothkeep.pack",
    schemaVersion: "1.0.0",
    createdAt: content.createdAt,
    createdBy: content.createdBy,
    siteId: text("screen", "siteId"),
    screenId: text("screen", "screenId"),
    unit: { profileId: text("unit", "profileId"), serial: text("unit", "serial") },
    configuration: canonicalHash(content.configuration),
    ...(content.entry === undefined ? {} : { entry: canonicalHash(content.entry) }),
    files: files.map((file) => file.listed).sort((a, b) => (a.name < b.name ? -1 : 1)),
  };
}

function signatureFile(manifest: PackManifest, key: SigningKey | undefined): Uint8Array | undefined {
  if (key === undefined) return undefined;
  const { privateKeyPem, passphrase } = key;
  const signature = signDocument(manifest, privateKeyPem, passphrase === undefined ? {} : { passphrase });
  return new TextEncoder().encode(readableJson(signature));
}

function requireWithin(files: readonly ManifestedFile[]): void {
  // The manifest and the signature come on top.
  const total = files.reduce((sum, { bytes }) => sum + bytes.length, 0);
  const tooLarge = files.find(({ bytes }) => bytes.length > LIMITS.fileBytes);
  if (tooLarge !== undefined || total > LIMITS.packBytes / 2 || files.length > LIMITS.files - 2) {
    throw new BoothkeepError(
      "pack.too-large",
      `The pack would hold ${files.length} files with ${total} bytes.`,
      {
        ...(tooLarge === undefined ? {} : { place: { id: tooLarge.listed.label ?? tooLarge.listed.name } }),
        next: "Leave attachments or previous entries out.",
      },
    );
  }
  const archive = files.find(({ bytes }) => isZip(bytes));
  if (archive !== undefined) {
    const name = archive.listed.label ?? archive.listed.name;
    throw new BoothkeepError("pack.nested-archive", `'${name}' is an archive; a pack holds none.`, {
      place: { id: name },
      next: "Attach the files inside it.",
    });
  }
}

/** Whether bytes start like a zip, also like an empty or a split one (APPNOTE.TXT 4.3.7, 4.3.16, 8.5.4). */
export function isZip(bytes: Uint8Array): boolean {
  const [a, b, c, d] = bytes;
  return a === 0x50 && b === 0x4b && ((c === 3 && d === 4) || (c === 5 && d === 6) || (c === 7 && d === 8));
}
