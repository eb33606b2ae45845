import type { Readable } from "node:stream";
import { crc32 } from "node:zlib";
import type { ZipRules } from "./rules.ts";
import { checkZipStructure, type ZipMember } from "./structure.ts";

/** A file of a zip. */
export interface ZipFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/**
 * The files of a zip that nobody vouches for: its structure is checked first, sizes and CRC-32 while unpacking.
 *
 * @param isWanted files that are unpacked; the others are only checked as far as the structure goes. @defaultValue all
 * @throws what the rules say
 */
export async function unzip(
  bytes: Uint8Array,
  rules: ZipRules,
  isWanted: (name: string) => boolean = () => true,
): Promise<readonly ZipFile[]> {
  const members = checkZipStructure(bytes, rules);
  // A CommonJS package: a bundle offers only its default export.
  const unzipper = await import("unzipper");
  const { Open } = unzipper.default ?? unzipper;
  const directory = await Open.buffer(Buffer.from(bytes)).catch(() => undefined);
  const listed = directory?.files.map((file) => file.path) ?? [];
  if (members.map((member) => member.name).join("\n") !== listed.join("\n")) {
    throw rules.refuse("inconsistent", `Two readers do not agree what the ${rules.noun} holds.`);
  }
  const files: ZipFile[] = [];
  for (const [index, member] of members.entries()) {
    if (!isWanted(member.name)) continue;
    const content = await collect(directory!.files[index]!.stream(), member, rules);
    files.push({ name: member.name, bytes: content });
  }
  return files;
}

async function collect(stream: Readable, member: ZipMember, { refuse }: ZipRules): Promise<Uint8Array> {
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
    throw refuse("damaged-file", `'${name}' cannot be unpacked: it is damaged.`, name);
  }
  if (total !== sizeBytes) {
    throw refuse("wrong-size", `'${name}' does not unpack to the ${sizeBytes} bytes that it claims.`, name);
  }
  const bytes = Buffer.concat(chunks);
  if (crc32(bytes) !== member.crc32) {
    throw refuse("damaged-file", `'${name}' is damaged: its CRC-32 is wrong.`, name);
  }
  return new Uint8Array(bytes);
}
