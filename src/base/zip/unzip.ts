import { crc32, inflateRawSync } from "node:zlib";
import type { ZipRules } from "./rules.ts";
import { checkZipStructure, type ZipMember } from "./structure.ts";

/** A file of a zip. */
export interface ZipFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/**
 * The files of a zip that nobody vouches for: its structure is checked first, and a second reader (unzipper) must list the
 * same files; then each file is unpacked to just the bytes that it claims, from all of the bytes that it takes up, and
 * compared with its CRC-32. unzipper does not say how many packed bytes it used, so unpacking is done here.
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
  const listed = await listedBySecondReader(bytes);
  if (members.map(({ name }) => name).join("\n") !== listed?.join("\n")) {
    throw rules.refuse("inconsistent", `Two readers do not agree what the ${rules.noun} holds.`);
  }
  return members
    .filter(({ name }) => isWanted(name))
    .map((member) => ({ name: member.name, bytes: unpacked(bytes, member, rules) }));
}

/** Names in the order of the directory, or undefined where the reader gives up. */
async function listedBySecondReader(bytes: Uint8Array): Promise<readonly string[] | undefined> {
  // A CommonJS package: a bundle offers only its default export.
  const unzipper = await import("unzipper");
  const { Open } = unzipper.default ?? unzipper;
  const directory = await Open.buffer(Buffer.from(bytes)).catch(() => undefined);
  return directory?.files.map(({ path }) => path);
}

function unpacked(bytes: Uint8Array, member: ZipMember, { refuse }: ZipRules): Uint8Array {
  const { name, dataOffset, packedBytes, sizeBytes, isDeflated } = member;
  const packed = bytes.subarray(dataOffset, dataOffset + packedBytes);
  const content = isDeflated ? inflated(packed, member, refuse) : packed;
  if (content.length !== sizeBytes) throw wrongSize(member, refuse);
  if (crc32(content) !== member.crc32) {
    throw refuse("damaged-file", `'${name}' is damaged: its CRC-32 is wrong.`, name);
  }
  return new Uint8Array(content);
}

function inflated(packed: Uint8Array, member: ZipMember, refuse: ZipRules["refuse"]): Uint8Array {
  const { name, sizeBytes } = member;
  let result: { readonly buffer: Uint8Array; readonly engine: { readonly bytesWritten: number } };
  try {
    // zlib refuses a bound of 0 bytes.
    const options = { info: true, maxOutputLength: Math.max(1, sizeBytes) } as const;
    result = inflateRawSync(packed, options) as unknown as typeof result;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE") throw wrongSize(member, refuse);
    throw refuse("damaged-file", `'${name}' cannot be unpacked: it is damaged.`, name);
  }
  // What zlib did not take lies behind the end of the deflate stream (RFC 1951): nobody would see it.
  const behind = packed.length - result.engine.bytesWritten;
  if (behind > 0) {
    throw refuse(
      "trailing-bytes",
      `'${name}' holds ${behind} bytes behind the end of its packed data.`,
      name,
    );
  }
  return result.buffer;
}

function wrongSize({ name, sizeBytes }: ZipMember, refuse: ZipRules["refuse"]): Error {
  return refuse("wrong-size", `'${name}' does not unpack to the ${sizeBytes} bytes that it claims.`, name);
}
