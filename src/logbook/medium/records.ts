import { canonicalText, isCanonical, type Sha256, sha256 } from "../../base/canonical/index.ts";
import type { EditedConfiguration, Entry, EntrySignature, Withdrawal } from "../../model/index.ts";
import type { Edits } from "./edits.ts";

/** Version of entries and of the logbook's format that this code writes. */
export const FORMAT_VERSION = "1.0.0";

/** A record that has an identity: the SHA-256 of its canonical text. */
export type LogbookRecord = Entry | Withdrawal | EntrySignature;

/** A record as it is kept. */
export interface IdentifiedRecord<T extends LogbookRecord = LogbookRecord> {
  readonly id: Sha256;
  readonly record: T;
}

/** A configuration as it is kept, whole or as edits to another one, with the line that keeps it. */
export type KeptConfiguration = WholeKept | EditedKept;

interface WholeKept {
  readonly kind: "whole";
  readonly sha256: Sha256;
  readonly line: string;
  /** RFC 8785 text of the configuration. */
  readonly text: string;
}

interface EditedKept {
  readonly kind: "edited";
  readonly sha256: Sha256;
  /** See {@link readEdits}; most readings need none. */
  readonly line: string;
}

/** What a line of a file can be. */
export type Line =
  | { readonly kind: "record"; readonly item: IdentifiedRecord; readonly text: string }
  | { readonly kind: "configuration"; readonly item: KeptConfiguration; readonly text: string };

/** The line that keeps a record. */
export function recordLine(record: LogbookRecord): string {
  return canonicalText(record);
}

/** The identity of a record: SHA-256 of its canonical text. */
export function recordId(record: LogbookRecord): Sha256 {
  return sha256(recordLine(record));
}

/** The line that keeps a configuration whole. */
export function wholeLine(canonicalConfiguration: string): string {
  return `${WHOLE_START}${canonicalConfiguration}${WHOLE_END}`;
}

// RFC 8785 sorts names, so that the kinds of lines can be told by how they start and end, without parsing them.
const WHOLE_START = '{"configuration":';
const WHOLE_END = ',"kind":"boothkeep.whole"}';
const EDITED_START = '{"add":';
const EDITED_END = /,"kind":"boothkeep\.edited","sha256":"([0-9a-f]{64})"\}$/;

/** Digits of a base's SHA-256 that name it; what comes out is checked against the whole SHA-256 of the result. */
const BASE_DIGITS = 16;

/** The line that keeps a configuration as edits. */
export function editedLine(configuration: Sha256, base: Sha256, edits: Edits): string {
  const line: EditedConfiguration = {
    kind: "boothkeep.edited",
    sha256: configuration,
    base: base.slice(0, BASE_DIGITS),
    keep: edits.keep,
    ...(edits.drop.every((count) => count === 1) ? {} : { drop: edits.drop }),
    add: edits.add.join("\n"),
  };
  return canonicalText(line);
}

/**
 * Reads a line; undefined for one of unknown kind, of wrong shape, or not in the form of RFC 8785. Lines that keep configurations are only
 * recognized: what they give is checked by its SHA-256 when it is put together.
 */
export function readLine(text: string): Line | undefined {
  if (text.startsWith(`${WHOLE_START}{`) && text.endsWith(WHOLE_END)) {
    const configuration = text.slice(WHOLE_START.length, -WHOLE_END.length);
    const item = { kind: "whole", sha256: sha256(configuration), line: text, text: configuration } as const;
    return { kind: "configuration", item, text };
  }
  const edited = text.startsWith(EDITED_START) ? EDITED_END.exec(text)?.[1] : undefined;
  if (edited !== undefined) {
    return { kind: "configuration", item: { kind: "edited", sha256: edited, line: text }, text };
  }
  const record = parsed(text);
  // A record in another form than RFC 8785 has another id, and would come back under it after it was withdrawn.
  if (!isRecord(record) || !isCanonical(record, text)) return undefined;
  return { kind: "record", item: { id: sha256(text), record }, text };
}

/** The base (the start of its SHA-256) and the edits of a line that keeps an edited configuration. */
export function readEdits(line: string): { readonly base: string; readonly edits: Edits } | undefined {
  const value = parsed(line);
  if (!isObject(value) || !hasOnly(value, ["kind", "sha256", "base", "keep", "drop", "add"]))
    return undefined;
  const { keep, add, base } = value;
  if (typeof base !== "string" || !/^[0-9a-f]{16}$/.test(base)) return undefined;
  if (!isCounts(keep) || typeof add !== "string") return undefined;
  const drop = Object.hasOwn(value, "drop") ? value.drop : keep.map(() => 1);
  if (!isCounts(drop)) return undefined;
  const added = keep.length === 0 && add === "" ? [] : add.split("\n");
  if (drop.length !== keep.length || added.length !== keep.length) return undefined;
  return { base, edits: { keep, drop, add: added } };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

type Members = Readonly<Record<string, unknown>>;
type Check = (value: unknown) => boolean;
type Shape = Readonly<Record<string, Check>>;

const isId = isText(1, 64);
const isNotes = isText(0, 10_000);
const isPerson = isText(1, 128);
const VERSION = /^1\.(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)$/;
const DATE_TIME =
  /^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](\.[0-9]{1,9})?(Z|[+-]([01][0-9]|2[0-3]):[0-5][0-9])$/;

/** The reasons of schemas/entry.schema.json. */
export const REASONS = [
  "as-found",
  "as-left",
  "before-swap",
  "after-swap",
  "routine",
  "imported",
  "standard-applied",
  "other",
] as const satisfies readonly Entry["reason"][];

const PLACE = { schemaVersion: matches(VERSION), siteId: isId, screenId: isId };
const AUTHOR = { recordedAt: matches(DATE_TIME), recordedBy: isPerson };

/** Members of each kind of record and what they must be; a "?" marks those that may be missing. */
const SHAPES: Readonly<Record<string, Shape>> = {
  "boothkeep.entry": {
    ...PLACE,
    ...AUTHOR,
    number: isInteger(1, 1e9),
    previous: isList(isSha256, 0, 64),
    reason: (value) => (REASONS as readonly unknown[]).includes(value),
    unit: isShape({ profileId: isId, serial: isId }),
    configuration: isSha256,
    "notes?": isNotes,
    "attachments?": isList(
      isShape({ name: isPerson, sha256: isSha256, sizeBytes: isInteger(0, 64 * 1024 * 1024) }),
      1,
      64,
    ),
  },
  "boothkeep.withdrawal": { ...PLACE, ...AUTHOR, entry: isSha256, reason: isText(1, 10_000) },
  "boothkeep.signature": {
    ...PLACE,
    record: isSha256,
    algorithm: (value) => value === "Ed25519",
    publicKey: matches(/^[A-Za-z0-9+/]{43}=$/),
    value: matches(/^[A-Za-z0-9+/]{86}==$/),
  },
};

/**
 * Whether a JSON value is a record of this version. Says the same as schemas/entry.schema.json and
 * schemas/logbook.schema.json, without the start-up time of their validators.
 */
export function isRecord(value: unknown): value is LogbookRecord {
  return wrongMember(value) === undefined;
}

/** The first member that keeps a JSON value from being a record; "" for the value itself. */
export function wrongMember(value: unknown): string | undefined {
  if (!isObject(value) || typeof value.kind !== "string") return "";
  if (!Object.hasOwn(SHAPES, value.kind)) return "kind";
  return firstWrong({ kind: () => true, ...SHAPES[value.kind] }, value);
}

/** Whether a text is a point in time as records carry it: RFC 3339 with offset. */
export function isDateTime(text: string): boolean {
  return DATE_TIME.test(text);
}

function isShape(shape: Shape): Check {
  return (value) => isObject(value) && firstWrong(shape, value) === undefined;
}

function firstWrong(shape: Shape, value: Members): string | undefined {
  const names = Object.keys(shape).map((name) => name.replace("?", ""));
  const unknown = Object.keys(value).find((name) => !names.includes(name));
  if (unknown !== undefined) return unknown;
  return names.find((name) =>
    Object.hasOwn(value, name)
      ? !(shape[name] ?? shape[`${name}?`])?.(value[name])
      : Object.hasOwn(shape, name),
  );
}

function isObject(value: unknown): value is Members {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function hasOnly(value: Members, names: readonly string[]): boolean {
  return Object.keys(value).every((name) => names.includes(name));
}

function isSha256(value: unknown): value is Sha256 {
  return typeof value === "string" && /^[0-9a-f]{64}$/.test(value);
}

function isCounts(value: unknown): value is readonly number[] {
  return Array.isArray(value) && value.every((item) => Number.isSafeInteger(item) && item >= 0);
}

function isText(minLength: number, maxLength: number): Check {
  // JSON Schema counts characters, not UTF-16 code units (RFC 8259 section 7).
  return (value) => typeof value === "string" && value.length >= minLength && [...value].length <= maxLength;
}

function matches(pattern: RegExp): Check {
  return (value) => typeof value === "string" && pattern.test(value);
}

function isInteger(min: number, max: number): Check {
  return (value) => Number.isInteger(value) && (value as number) >= min && (value as number) <= max;
}

function isList(check: Check, minItems: number, maxItems: number): Check {
  return (value) =>
    Array.isArray(value) &&
    value.length >= minItems &&
    value.length <= maxItems &&
    value.every(check) &&
    new Set(value).size === value.length;
}
