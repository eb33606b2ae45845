import { crc32, deflateRawSync } from "node:zlib";
import type { PackContent } from "../../../src/logbook/pack/index.ts";
import { configuration } from "../entries/support/documents.ts";

export function packContent(more: Partial<PackContent> = {}): PackContent {
  return {
    createdAt: "2026-03-02T23:55:00+01:00",
    createdBy: "service team north",
    configuration: configuration(),
    profile: { kind: "boothkeep.unit-profile", id: "tern-16" },
    sheets: { text: "Screen 3\n", html: "<p>Screen 3</p>\n" },
    cautions: "Amplifiers off.\n",
    ...more,
  };
}

/** A member of a zip made by hand; what is left out is honest. */
export interface HandMade {
  readonly name: string | Uint8Array;
  readonly content?: Uint8Array | string;
  readonly localName?: string;
  readonly method?: number;
  readonly flags?: number;
  readonly attributes?: number;
  readonly madeBy?: number;
  readonly crc?: number;
  readonly sizeBytes?: number;
  readonly packedBytes?: number;
  readonly packed?: Uint8Array;
  readonly extra?: Uint8Array;
  readonly comment?: string;
  readonly offset?: number;
  /** Sizes in a descriptor behind the data (flag bit 3). */
  readonly descriptor?: boolean;
  readonly gapBefore?: number;
}

/** Changes to the end record and to what surrounds the archive. */
export interface HandMadeEnd {
  readonly count?: number;
  readonly countOnDisk?: number;
  readonly disk?: number;
  readonly comment?: string;
  readonly directoryOffset?: number;
  readonly directoryBytes?: number;
  readonly trailing?: Uint8Array;
  readonly leading?: Uint8Array;
}

const PLAIN_FILE_MODE = 0o100644 * 65536;

/** A zip put together byte by byte (APPNOTE.TXT 6.3), so that any part of it can lie. */
export function handMadeZip(members: readonly HandMade[], end: HandMadeEnd = {}): Uint8Array {
  const parts: Uint8Array[] = [end.leading ?? new Uint8Array()];
  const central: Uint8Array[] = [];
  let at = parts[0]!.length;
  for (const member of members) {
    if (member.gapBefore !== undefined) {
      parts.push(new Uint8Array(member.gapBefore));
      at += member.gapBefore;
    }
    const made = memberBytes(member, at);
    parts.push(made.local);
    central.push(made.central);
    at += made.local.length;
  }
  const directory = Buffer.concat(central);
  const comment = Buffer.from(end.comment ?? "");
  const record = Buffer.alloc(22);
  record.writeUInt32LE(0x06054b50, 0);
  record.writeUInt16LE(end.disk ?? 0, 4);
  record.writeUInt16LE(end.countOnDisk ?? end.count ?? members.length, 8);
  record.writeUInt16LE(end.count ?? members.length, 10);
  record.writeUInt32LE(end.directoryBytes ?? directory.length, 12);
  record.writeUInt32LE(end.directoryOffset ?? at, 16);
  record.writeUInt16LE(comment.length, 20);
  return new Uint8Array(
    Buffer.concat([...parts, directory, record, comment, end.trailing ?? new Uint8Array()]),
  );
}

function memberBytes(
  member: HandMade,
  at: number,
): { readonly local: Uint8Array; readonly central: Uint8Array } {
  const name = Buffer.from(member.name);
  const localName = Buffer.from(member.localName ?? member.name);
  const content = Buffer.from(member.content ?? "");
  const method = member.method ?? 8;
  const packed = Buffer.from(member.packed ?? (method === 8 ? deflateRawSync(content) : content));
  const crc = member.crc ?? crc32(content);
  const packedBytes = member.packedBytes ?? packed.length;
  const sizeBytes = member.sizeBytes ?? content.length;
  const described = member.descriptor === true;
  const flags = (member.flags ?? 0) | (described ? 8 : 0);
  const extra = Buffer.from(member.extra ?? "");
  const comment = Buffer.from(member.comment ?? "");

  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt16LE(20, 4);
  local.writeUInt16LE(flags, 6);
  local.writeUInt16LE(method, 8);
  local.writeUInt32LE(0x00210000, 10);
  local.writeUInt32LE(described ? 0 : crc, 14);
  local.writeUInt32LE(described ? 0 : packedBytes, 18);
  local.writeUInt32LE(described ? 0 : sizeBytes, 22);
  local.writeUInt16LE(localName.length, 26);
  local.writeUInt16LE(extra.length, 28);
  const descriptor = Buffer.alloc(described ? 16 : 0);
  if (described) {
    descriptor.writeUInt32LE(0x08074b50, 0);
    descriptor.writeUInt32LE(crc, 4);
    descriptor.writeUInt32LE(packedBytes, 8);
    descriptor.writeUInt32LE(sizeBytes, 12);
  }

  const central = Buffer.alloc(46);
  central.writeUInt32LE(0x02014b50, 0);
  central.writeUInt16LE(((member.madeBy ?? 3) << 8) | 20, 4);
  central.writeUInt16LE(20, 6);
  central.writeUInt16LE(flags, 8);
  central.writeUInt16LE(method, 10);
  central.writeUInt32LE(0x00210000, 12);
  central.writeUInt32LE(crc, 16);
  central.writeUInt32LE(packedBytes, 20);
  central.writeUInt32LE(sizeBytes, 24);
  central.writeUInt16LE(name.length, 28);
  central.writeUInt16LE(extra.length, 30);
  central.writeUInt16LE(comment.length, 32);
  central.writeUInt32LE(member.attributes ?? PLAIN_FILE_MODE, 38);
  central.writeUInt32LE(member.offset ?? at, 42);
  return {
    local: Buffer.concat([local, localName, extra, packed, descriptor]),
    central: Buffer.concat([central, name, extra, comment]),
  };
}
