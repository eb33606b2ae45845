import type { ZipRules } from "./rules.ts";

/*
 * Checks the structure of a zip before anything is unpacked. Offsets and field names: APPNOTE.TXT 6.3,
 * sections 4.3.7 (local header), 4.3.9 (data descriptor), 4.3.12 (central record), 4.3.16 (end record).
 */

/** A member of a zip whose structure was found sound. */
export interface ZipMember {
  readonly name: string;
  readonly crc32: number;
  readonly packedBytes: number;
  readonly sizeBytes: number;
  /** Where its packed data begins in the zip, in bytes. */
  readonly dataOffset: number;
  /** Deflated (RFC 1951), else stored. */
  readonly isDeflated: boolean;
}

const END_BYTES = 22;
const CENTRAL_BYTES = 46;
const LOCAL_BYTES = 30;
const DESCRIPTOR_BYTES = 16;
const SIGNATURE = {
  local: 0x04034b50,
  descriptor: 0x08074b50,
  central: 0x02014b50,
  end: 0x06054b50,
} as const;

const FLAG_ENCRYPTED = 0x1;
const FLAG_DESCRIPTOR = 0x8;
/** A descriptor follows (bit 3); names are UTF-8 (bit 11). */
const FLAGS_ALLOWED = 0x808;
/** How hard a member was packed (bits 1 and 2). */
const FLAGS_EXTRA = 0x6;
const STORED = 0;
const DEFLATED = 8;
const UNIX = 3;
const TYPE_MASK = 0o170000;
const PLAIN_FILE = 0o100000;
const DOS_FOLDER = 0x10;
const ZIP64 = 0xffffffff;

interface CentralRecord extends Omit<ZipMember, "dataOffset" | "isDeflated"> {
  readonly flags: number;
  readonly method: number;
  readonly time: number;
  readonly localOffset: number;
}

/** The bytes of a zip with the rules that they must follow. */
interface Zip {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  readonly rules: ZipRules;
}

/**
 * The members of a zip, when every byte of it has a meaning and the meaning is plain.
 * @throws what the rules say
 */
export function checkZipStructure(bytes: Uint8Array, rules: ZipRules): readonly ZipMember[] {
  const { limits, noun, refuse } = rules;
  if (bytes.length > limits.zipBytes) {
    throw refuse(
      "too-large",
      `The ${noun} has ${bytes.length} bytes; none is larger than ${limits.zipBytes}.`,
    );
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const zip = { bytes, view, rules };
  const end = readEnd(zip);
  const records = readDirectory(zip, end);
  checkNames(
    records.map((record) => record.name),
    rules,
  );
  checkSizes(records, rules);
  const offsets = checkLocals(zip, records, end.directoryOffset);
  return records.map((record) => {
    const { name, crc32, packedBytes, sizeBytes, method } = record;
    const isDeflated = method === DEFLATED;
    return { name, crc32, packedBytes, sizeBytes, isDeflated, dataOffset: offsets.get(record)! };
  });
}

interface End {
  readonly count: number;
  readonly directoryOffset: number;
  readonly directoryBytes: number;
}

function readEnd(zip: Zip): End {
  const { bytes, view, rules } = zip;
  const { limits, noun, refuse } = rules;
  const at = bytes.length - END_BYTES;
  if (at < 0 || view.getUint32(at, true) !== SIGNATURE.end) throw noEnd(zip);
  const disks = [view.getUint16(at + 4, true), view.getUint16(at + 6, true)];
  const [onDisk, count] = [view.getUint16(at + 8, true), view.getUint16(at + 10, true)];
  const directoryBytes = view.getUint32(at + 12, true);
  const directoryOffset = view.getUint32(at + 16, true);
  if (disks.some((disk) => disk !== 0) || onDisk !== count) {
    throw refuse("odd-feature", `The ${noun} says that it is spread over several disks.`);
  }
  if (view.getUint16(at + 20, true) !== 0) {
    throw refuse("truncated", `The ${noun}'s end record promises a comment that is not there.`);
  }
  if (count === 0) throw refuse("empty", `The ${noun} is empty.`);
  if (count > limits.files) {
    throw refuse("too-large", `The ${noun} lists ${count} files; a ${noun} has at most ${limits.files}.`);
  }
  if (directoryOffset + directoryBytes !== at) {
    throw refuse("inconsistent", `The ${noun}'s directory is not where its end record says.`);
  }
  return { count, directoryOffset, directoryBytes };
}

/** Why there is no end record in the last bytes: said in the words that help most. */
function noEnd({ bytes, view, rules: { noun, refuse } }: Zip): Error {
  if (bytes.length < 4 || view.getUint32(0, true) !== SIGNATURE.local) {
    return refuse("not-a-zip", `The file is no ${noun}: it does not start like a zip.`);
  }
  for (let at = bytes.length - END_BYTES - 1; at >= 0; at -= 1) {
    if (view.getUint32(at, true) !== SIGNATURE.end) continue;
    const surplus = bytes.length - at - END_BYTES;
    return view.getUint16(at + 20, true) === surplus
      ? refuse("odd-feature", `The ${noun} carries a comment; no ${noun} does.`)
      : refuse("trailing-bytes", `${surplus} bytes follow after the end of the ${noun}.`);
  }
  return refuse("truncated", `The end of the ${noun} is missing: it was not copied whole.`);
}

function readDirectory(zip: Zip, end: End): readonly CentralRecord[] {
  const { bytes, view, rules } = zip;
  const { noun, refuse, extras } = rules;
  const records: CentralRecord[] = [];
  const stop = end.directoryOffset + end.directoryBytes;
  let at = end.directoryOffset;
  for (let index = 0; index < end.count; index += 1) {
    if (at + CENTRAL_BYTES > stop || view.getUint32(at, true) !== SIGNATURE.central) {
      throw refuse(
        "inconsistent",
        `The ${noun}'s directory breaks off at file ${index + 1} of ${end.count}.`,
      );
    }
    const nameBytes = view.getUint16(at + 28, true);
    const nameEnd = at + CENTRAL_BYTES + nameBytes;
    const next = nameEnd + (extras ? view.getUint16(at + 30, true) : 0);
    if (next > stop) throw refuse("inconsistent", `A name in the ${noun}'s directory runs out of it.`);
    const name = asciiName(bytes.subarray(at + CENTRAL_BYTES, nameEnd), rules);
    checkPlain(zip, at, name);
    records.push({
      name,
      flags: view.getUint16(at + 8, true),
      method: view.getUint16(at + 10, true),
      time: view.getUint32(at + 12, true),
      crc32: view.getUint32(at + 16, true),
      packedBytes: view.getUint32(at + 20, true),
      sizeBytes: view.getUint32(at + 24, true),
      localOffset: view.getUint32(at + 42, true),
    });
    at = next;
  }
  if (at !== stop)
    throw refuse("inconsistent", `The ${noun}'s directory lists more than its end record says.`);
  return records;
}

function asciiName(bytes: Uint8Array, { noun, isSafeName, refuse }: ZipRules): string {
  // Bytes outside ASCII become letters that no safe name has.
  const name = Buffer.from(bytes).toString("latin1");
  if (!isSafeName(name)) {
    throw refuse("unsafe-name", `The ${noun} holds a file with an unsafe name: ${JSON.stringify(name)}.`);
  }
  return name;
}

function checkPlain({ view, rules: { refuse, extras } }: Zip, at: number, name: string): void {
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  const [extraBytes, commentBytes] = [view.getUint16(at + 30, true), view.getUint16(at + 32, true)];
  const attributes = view.getUint32(at + 38, true);
  const mode = attributes >>> 16;
  const madeOnUnix = view.getUint8(at + 5) === UNIX;
  if ((flags & FLAG_ENCRYPTED) !== 0) throw refuse("encrypted", `'${name}' is encrypted.`, name);
  if ((flags & ~(extras ? FLAGS_ALLOWED | FLAGS_EXTRA : FLAGS_ALLOWED)) !== 0)
    throw refuse("odd-feature", `'${name}' has odd flags.`, name);
  if (method !== STORED && method !== DEFLATED) {
    throw refuse("odd-method", `'${name}' is packed by method ${method}; only 0 and 8 are read.`, name);
  }
  if ((extraBytes !== 0 && !extras) || commentBytes !== 0 || view.getUint16(at + 34, true) !== 0) {
    throw refuse("odd-feature", `'${name}' carries extra fields or a comment.`, name);
  }
  const typed = (mode & TYPE_MASK) !== 0;
  if ((attributes & DOS_FOLDER) !== 0 || (typed && ((mode & TYPE_MASK) !== PLAIN_FILE || !madeOnUnix))) {
    throw refuse("not-a-file", `'${name}' is a link, a folder or a device, not a plain file.`, name);
  }
}

function checkNames(names: readonly string[], { noun, refuse }: ZipRules): void {
  // Safe names are ASCII, so names that differ by Unicode form were refused before.
  const plain = names.map((name) => name.toLowerCase());
  const twice = names.find((_name, index) => plain.indexOf(plain[index]!) !== index);
  if (twice !== undefined) throw refuse("duplicate-name", `The ${noun} holds '${twice}' twice.`, twice);
}

function checkSizes(records: readonly CentralRecord[], { limits, noun, refuse }: ZipRules): void {
  for (const { name, method, packedBytes, sizeBytes } of records) {
    if (packedBytes === ZIP64 || sizeBytes === ZIP64 || sizeBytes > limits.fileBytes) {
      throw refuse("too-large", `'${name}' says it has ${sizeBytes} bytes; that is too large.`, name);
    }
    if (sizeBytes > packedBytes * limits.ratio + 1024) {
      throw refuse("too-large", `'${name}' would swell ${Math.round(sizeBytes / packedBytes)} times.`, name);
    }
    if (method === STORED && packedBytes !== sizeBytes) {
      throw refuse("wrong-size", `'${name}' is stored, yet its two sizes differ.`, name);
    }
  }
  const total = records.reduce((sum, record) => sum + record.sizeBytes, 0);
  if (total > limits.unpackedBytes) {
    throw refuse("too-large", `The ${noun} would unpack to ${total} bytes; that is too large.`);
  }
}

/** Where the data of each member lies. Local headers say what the directory says, and members lie one after the other without gap or overlap. */
function checkLocals(
  zip: Zip,
  records: readonly CentralRecord[],
  directoryOffset: number,
): ReadonlyMap<CentralRecord, number> {
  const offsets = new Map<CentralRecord, number>();
  const { view, rules } = zip;
  const { noun, refuse, extras } = rules;
  let at = 0;
  for (const record of [...records].sort((a, b) => a.localOffset - b.localOffset)) {
    const { name, flags } = record;
    if (record.localOffset !== at) {
      throw refuse(
        "overlap",
        `'${name}' overlaps another file of the ${noun}, or a gap lies before it.`,
        name,
      );
    }
    const described = (flags & FLAG_DESCRIPTOR) !== 0;
    const extraBytes = extras && at + LOCAL_BYTES <= directoryOffset ? view.getUint16(at + 28, true) : 0;
    const dataAt = at + LOCAL_BYTES + name.length + extraBytes;
    const next = dataAt + record.packedBytes + (described ? DESCRIPTOR_BYTES : 0);
    if (next > directoryOffset) throw refuse("overlap", `'${name}' runs into the ${noun}'s directory.`, name);
    if (!localAgrees(zip, at, record, described)) {
      throw refuse(
        "inconsistent",
        `'${name}' says one thing in its header and another in the directory.`,
        name,
      );
    }
    if (described && !descriptorAgrees(view, dataAt + record.packedBytes, record)) {
      throw refuse("inconsistent", `The sizes behind '${name}' are not those of the directory.`, name);
    }
    offsets.set(record, dataAt);
    at = next;
  }
  if (at !== directoryOffset) {
    throw refuse("overlap", `Bytes that belong to no file lie before the ${noun}'s directory.`);
  }
  return offsets;
}

function localAgrees(
  { bytes, view, rules: { extras } }: Zip,
  at: number,
  record: CentralRecord,
  described: boolean,
): boolean {
  const sizes = [view.getUint32(at + 14, true), view.getUint32(at + 18, true), view.getUint32(at + 22, true)];
  const expected = described ? [0, 0, 0] : [record.crc32, record.packedBytes, record.sizeBytes];
  const nameAt = at + LOCAL_BYTES;
  return (
    view.getUint32(at, true) === SIGNATURE.local &&
    view.getUint16(at + 6, true) === record.flags &&
    view.getUint16(at + 8, true) === record.method &&
    view.getUint32(at + 10, true) === record.time &&
    sizes.every((size, index) => size === expected[index]) &&
    view.getUint16(at + 26, true) === record.name.length &&
    (extras || view.getUint16(at + 28, true) === 0) &&
    Buffer.from(bytes.subarray(nameAt, nameAt + record.name.length)).toString("latin1") === record.name
  );
}

function descriptorAgrees(view: DataView, at: number, record: CentralRecord): boolean {
  return (
    view.getUint32(at, true) === SIGNATURE.descriptor &&
    view.getUint32(at + 4, true) === record.crc32 &&
    view.getUint32(at + 8, true) === record.packedBytes &&
    view.getUint32(at + 12, true) === record.sizeBytes
  );
}
