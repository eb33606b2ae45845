import type { Readable } from "node:stream";
import { crc32, deflateRawSync } from "node:zlib";
import { LIMITS } from "./limits.ts";
import { refusal } from "./refusals.ts";
import { checkZipStructure, type ZipMember } from "./zip-structure.ts";

/** A file of a pack. */
export interface ZipFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The earliest time that a zip can carry (APPNOTE.TXT 4.4.6): contents, not the clock, decide a pack's bytes. */
const ZIP_EPOCH = new Date(Date.UTC(1980, 0, 1));
const PLAIN_MODE = 0o644;

/** Bytes of a zip with these files in this order. The same files give the same bytes. */
export async function zipBytes(files: readonly ZipFile[]): Promise<Uint8Array> {
  const { ZipArchive } = await import("archiver");
  const archive = new ZipArchive({ zlib: { level: 9 } });
  const chunks: Buffer[] = [];
  const collected = new Promise<void>((resolve, reject) => {
    archive.on("data", (chunk) => chunks.push(chunk));
    archive.on("warning", reject);
    archive.on("error", reject);
    archive.on("end", resolve);
  });
  for (const { name, bytes } of files) {
    archive.append(Buffer.from(bytes), { name, date: ZIP_EPOCH, mode: PLAIN_MODE, store: swells(bytes) });
  }
  await Promise.all([archive.finalize(), collected]);
  return new Uint8Array(Buffer.concat(chunks));
}

/** Whether bytes would unpack to so many times their packed size that a reader takes them for a bomb. */
function swells(bytes: Uint8Array): boolean {
  return bytes.length > deflateRawSync(bytes).length * (LIMITS.ratio / 2);
}

/**
 * The files of a zip that nobody vouches for: its structure is checked first, sizes and CRC-32 while unpacking.
 * @throws BoothkeepError with a code that starts with "pack."
 */
export async function unzipBytes(bytes: Uint8Array): Promise<readonly ZipFile[]> {
  const members = checkZipStructure(bytes);
  // A CommonJS package: a bundle offers only its default export.
  const unzipper = await import("unzipper");
  const { Open } = unzipper.default ?? unzipper;
  const directory = await Open.buffer(Buffer.from(bytes)).catch(() => undefined);
  const listed = directory?.files.map((file) => file.path) ?? [];
  if (members.map((member) => member.name).join("\n") !== listed.join("\n")) {
    throw refusal("inconsistent", "Two readers do not agree what the pack holds.");
  }
  const files: ZipFile[] = [];
  for (const [index, member] of members.entries()) {
    const content = await collect(directory!.files[index]!.stream(), member);
    files.push({ name: member.name, bytes: content });
  }
  return files;
}

async function collect(stream: Readable, member: ZipMember): Promise<Uint8Array> {
  const { name, sizeBytes } = member;
  const chunks: Buffer[] = [];
  let total = 0;
  try {
    for await (const chunk of stream as AsyncIterable<Buffer>) {
      total += chunk.length;
      if (total > sizeBytes) break;
      chunks.push(chunk);
    }
  } catch {
    throw refusal("damaged-file", `'${name}' cannot be unpacked: it is damaged.`, name);
  }
  if (total !== sizeBytes) {
    throw refusal("wrong-size", `'${name}' does not unpack to the ${sizeBytes} bytes that it claims.`, name);
  }
  const bytes = Buffer.concat(chunks);
  if (crc32(bytes) !== member.crc32) {
    throw refusal("damaged-file", `'${name}' is damaged: its CRC-32 is wrong.`, name);
  }
  return new Uint8Array(bytes);
}
