import { isUtf8 } from "node:buffer";
import { constants, gunzipSync, gzipSync } from "node:zlib";

/**
 * The only header that is written and read (RFC 1952 section 2.3): deflate, no flags, no time, no name, system
 * unknown. Readers insist on it, so that no byte of a file is without meaning.
 */
const HEADER = Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255);

/** No file of a logbook is larger when unpacked; a file that claims more is refused while unpacking. */
const MAX_UNPACKED_BYTES = 128 * 1024 * 1024;

/** Bytes as one gzip member, the same on every system with the same zlib. */
export function pack(content: Uint8Array | string): Uint8Array {
  const bytes = gzipSync(content, { level: constants.Z_BEST_COMPRESSION, memLevel: 9 });
  bytes.set(HEADER);
  return new Uint8Array(bytes);
}

/** What a gzip member holds, or undefined when it is damaged (CRC-32, length, header, anything after the end). */
export function unpack(bytes: Uint8Array): Uint8Array | undefined {
  if (!startsMember(bytes, 0)) return undefined;
  try {
    const content = gunzipSync(bytes, { maxOutputLength: MAX_UNPACKED_BYTES });
    return new Uint8Array(content.buffer, content.byteOffset, content.byteLength);
  } catch {
    return undefined;
  }
}

/** Whether a gzip member with our header can start here. */
export function startsMember(bytes: Uint8Array, at: number): boolean {
  return HEADER.every((byte, index) => bytes[at + index] === byte);
}

/** Texts, one to a line, as one gzip member: `gunzip < file` shows them. */
export function packLines(lines: readonly string[]): Uint8Array {
  return pack(lines.map((line) => `${line}\n`).join(""));
}

/** The lines of a gzip member, or undefined when it is damaged or not lines of UTF-8. */
export function unpackLines(bytes: Uint8Array): readonly string[] | undefined {
  const content = unpack(bytes);
  if (content === undefined) return undefined;
  if (!isUtf8(content)) return undefined;
  const lines = Buffer.from(content.buffer, content.byteOffset, content.length).toString("utf8").split("\n");
  return lines.pop() === "" ? lines : undefined;
}
