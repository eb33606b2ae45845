import { sha256 } from "../../base/canonical/index.ts";

/*
 * Where everything is kept; schemas/logbook-format.md is the same in words.
 *
 *   logbook.json                                    the header
 *   entries/SITE/SCREEN/RECORD.DIGEST.gz            one entry, withdrawal or signature
 *   bound/SITE.DIGEST.gz                            the entries of a site gathered in one file
 *   references/PROFILE/ROLE.SHA256.DIGEST.gz        a whole configuration that others are kept against
 *   parts/SHA256.DIGEST.gz                          an attachment
 *   policy/NUMBER.SHA256.DIGEST.gz                  which signatures are asked for
 *   register/...                                    an empty file for each of the above, so that a missing one shows
 *   damaged/...                                     what a healing has set aside
 *
 * DIGEST is the start of the SHA-256 of the file's own bytes: a file proves itself by its name.
 */

export const HEADER_FILE = "logbook.json";
export const ENTRIES = "entries";
export const BOUND = "bound";
export const REFERENCES = "references";
export const PARTS = "parts";
export const POLICY = "policy";
export const REGISTER = "register";
export const DAMAGED = "damaged";

/** Hexadecimal digits of a digest in a name: 64 bits, against accidents. Contents are held by whole SHA-256. */
const DIGEST_DIGITS = 16;
const LONGEST_PLAIN_NAME = 60;

/** Names that Windows keeps for devices (Microsoft, "Naming Files, Paths, and Namespaces"). */
const DEVICE_NAME = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])$/;

/**
 * An id as a folder name that every file system takes and none confuses with another: lower-case letters, digits
 * and hyphens stay, every other byte of the UTF-8 text becomes "_" and two hexadecimal digits.
 */
export function folderName(id: string): string {
  let name = "";
  for (const byte of Buffer.from(id, "utf8")) {
    const char = String.fromCharCode(byte);
    name += /[a-z0-9-]/.test(char) ? char : hexByte(byte);
  }
  if (DEVICE_NAME.test(name)) name = hexByte(name.charCodeAt(0)) + name.slice(1);
  // "__" arises in no other way, since "_" itself is written as "_5f".
  return name.length <= LONGEST_PLAIN_NAME ? name : `${name.slice(0, 40)}__${sha256(id).slice(0, 16)}`;
}

function hexByte(byte: number): string {
  return `_${byte.toString(16).padStart(2, "0")}`;
}

/** The part of a file's name that vouches for its bytes. */
export function fileDigest(bytes: Uint8Array): string {
  return sha256(bytes).slice(0, DIGEST_DIGITS);
}

/** `STEM.DIGEST.gz` for these bytes. */
export function fileName(stem: string, bytes: Uint8Array): string {
  return `${stem}.${fileDigest(bytes)}.gz`;
}

/** Takes `STEM.DIGEST.gz` apart; undefined for any other name. */
export function parseFileName(name: string): { readonly stem: string; readonly digest: string } | undefined {
  const match = /^([a-z0-9_-]+(?:\.[0-9a-f]{64})?)\.([0-9a-f]{16})\.gz$/.exec(name);
  return match === null ? undefined : { stem: match[1]!, digest: match[2]! };
}

/** The folder that keeps a screen's records. */
export function screenFolder(siteId: string, screenId: string): string {
  return `${ENTRIES}/${folderName(siteId)}/${folderName(screenId)}`;
}

/** The mark of the header in the register. */
export function headerMark(bytes: Uint8Array): string {
  return `${HEADER_FILE}.${fileDigest(bytes)}`;
}

/** The mark that the register keeps for a file. Bound files differ by their digest only, so theirs carries it. */
export function markStem(folder: string, fileName: string): string {
  const parsed = parseFileName(fileName);
  if (parsed === undefined) return fileName;
  return folder === BOUND ? `${parsed.stem}.${parsed.digest}` : parsed.stem;
}

/** Where the register keeps the marks for the files of a folder, and the start of their names. */
export interface RegisterPlace {
  readonly folder: string;
  readonly prefix: string;
}

/** Marks of a screen's records share a folder with those of the site's other screens, to save blocks on small cards. */
export function registerPlace(folder: string): RegisterPlace {
  const parts = folder.split("/");
  if (folder === "") return { folder: REGISTER, prefix: "" };
  return parts[0] === ENTRIES && parts.length === 3
    ? { folder: `${REGISTER}/${ENTRIES}/${parts[1]}`, prefix: `${parts[2]}.` }
    : { folder: `${REGISTER}/${folder}`, prefix: "" };
}
