import { canonicalText, sha256 } from "../../base/canonical/index.ts";
import type { PackedFile } from "../../model/index.ts";

export const MANIFEST_NAME = "manifest.json";
export const SIGNATURE_NAME = "signature.json";

/** What a file of a pack is. */
export type PackRole = PackedFile["role"];

/** Names of the files of which a pack holds one at most. */
export const SINGLE_FILES = {
  configuration: "configuration.json",
  "unit-profile": "unit-profile.json",
  entry: "entry.json",
  "sheet-text": "sheet.txt",
  "sheet-html": "sheet.html",
  cautions: "cautions.txt",
} as const satisfies Partial<Record<PackRole, string>>;

/** A file of a pack with what the manifest says of it. */
export interface ManifestedFile {
  readonly listed: PackedFile;
  readonly bytes: Uint8Array;
}

/** A file for a pack; `label` is an attachment's own name. */
export function packFile(
  role: PackRole,
  name: string,
  content: Uint8Array | string,
  label?: string,
): ManifestedFile {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return {
    listed: {
      name,
      role,
      ...(label === undefined ? {} : { label }),
      sizeBytes: bytes.length,
      sha256: sha256(bytes),
    },
    bytes,
  };
}

/** A JSON document for people who open the pack by hand: indented, members in RFC 8785 order. */
export function readableJson(document: unknown): string {
  return `${JSON.stringify(JSON.parse(canonicalText(document)), null, 2)}\n`;
}

/** `ROLE-01.EXTENSION`: the name of one of several files. */
export function numberedName(stem: string, number: number, extension: string): string {
  return `${stem}-${String(number).padStart(2, "0")}.${extension}`;
}
