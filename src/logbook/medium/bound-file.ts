import { canonicalText, isCanonical, type Sha256 } from "../../base/canonical/index.ts";
import { packLines, startsMember, unpackLines } from "./gzip-lines.ts";
import { fileDigest } from "./layout.ts";
import { FORMAT_VERSION } from "./records.ts";

/*
 * A bound file is a row of gzip members: an index, the references, one member for each screen, and the index once
 * more. `gunzip < file` shows all lines; damage to one member costs that member only.
 */

/** What one member of a bound file holds. */
export interface BoundMember {
  /** The screen whose records it holds; undefined for the references. */
  readonly screenId?: string;
  /** The first digits of the ids of its records. */
  readonly records?: readonly string[];
  readonly sizeBytes: number;
  /** As in a file's name: vouches for the member's bytes. */
  readonly digest: string;
}

export interface BoundIndex {
  readonly kind: "boothkeep.bound-index";
  readonly schemaVersion: string;
  readonly siteId: string;
  readonly members: readonly BoundMember[];
}

/** The lines of a screen, and the ids of its records. */
export interface BoundScreen {
  readonly screenId: string;
  readonly ids: readonly Sha256[];
  readonly lines: readonly string[];
}

/** Digits of an id in an index: enough to say what a damaged member held. */
const INDEX_DIGITS = 8;

/** The lines of a site: references first, then screen by screen. */
export interface BoundContent {
  readonly siteId: string;
  readonly references: readonly string[];
  readonly screens: readonly BoundScreen[];
}

/** A bound file as far as it can be read. */
export interface BoundReading {
  readonly index: BoundIndex;
  /** The lines of a member; undefined when the member is damaged. */
  readonly lines: (member: BoundMember) => readonly string[] | undefined;
}

/** The bytes of a bound file. */
export function boundBytes(content: BoundContent): Uint8Array {
  const bodies = [
    { bytes: packLines(content.references) },
    ...content.screens.map(({ screenId, ids, lines }) => ({
      screenId,
      records: ids.map((id) => id.slice(0, INDEX_DIGITS)),
      bytes: packLines(lines),
    })),
  ];
  const index: BoundIndex = {
    kind: "boothkeep.bound-index",
    schemaVersion: FORMAT_VERSION,
    siteId: content.siteId,
    members: bodies.map(({ bytes, ...member }) => ({
      ...member,
      sizeBytes: bytes.length,
      digest: fileDigest(bytes),
    })),
  };
  const indexBytes = packLines([canonicalText(index)]);
  return new Uint8Array(Buffer.concat([indexBytes, ...bodies.map((body) => body.bytes), indexBytes]));
}

/** Opens a bound file; undefined when both copies of its index are damaged. */
export function readBound(bytes: Uint8Array): BoundReading | undefined {
  const starts = memberStarts(bytes);
  const firstEnd = starts[1] ?? bytes.length;
  const index = readIndex(bytes.subarray(0, firstEnd)) ?? readIndex(bytes.subarray(starts.at(-1) ?? 0));
  if (index === undefined) return undefined;
  const total = index.members.reduce((sum, member) => sum + member.sizeBytes, 0);
  // The index is there twice, so its size follows from the sizes of the others even where the first one is damaged.
  let at = (bytes.length - total) / 2;
  const places = new Map<BoundMember, Uint8Array>();
  for (const member of index.members) {
    places.set(member, bytes.subarray(at, at + member.sizeBytes));
    at += member.sizeBytes;
  }
  return {
    index,
    lines(member) {
      const body = places.get(member);
      return body === undefined || fileDigest(body) !== member.digest ? undefined : unpackLines(body);
    },
  };
}

function memberStarts(bytes: Uint8Array): number[] {
  const starts: number[] = [];
  for (let at = bytes.indexOf(0x1f); at >= 0; at = bytes.indexOf(0x1f, at + 1)) {
    if (startsMember(bytes, at)) starts.push(at);
  }
  return starts;
}

function readIndex(member: Uint8Array): BoundIndex | undefined {
  const [text, ...more] = unpackLines(member) ?? [];
  if (text === undefined || more.length > 0) return undefined;
  try {
    const index = JSON.parse(text) as BoundIndex;
    const fits =
      index.kind === "boothkeep.bound-index" &&
      index.schemaVersion.startsWith("1.") &&
      typeof index.siteId === "string" &&
      index.members.every((member) => Number.isSafeInteger(member.sizeBytes) && member.sizeBytes > 0);
    return fits && isCanonical(index, text) ? index : undefined;
  } catch {
    return undefined;
  }
}
