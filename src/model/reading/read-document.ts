import { BoothkeepError, type ErrorPlace } from "../../base/errors/index.ts";
import type { Configuration } from "../generated/configuration.ts";
import type { UnitProfile } from "../generated/unit-profile.ts";
import type { DocumentSchema } from "../generated/validators.js";
import { DOCUMENT_KINDS, kindWords, schemaOfKind } from "./document-kinds.ts";
import type { DocumentKind, DocumentTypes } from "./document-types.ts";
import { readJson } from "./json.ts";
import { findSecret } from "./secrets.ts";
import { checkShape, type Shape } from "./shape.ts";
import { toPresentVersion } from "./version.ts";

/** What is worth knowing about the reading of a document that is usable all the same. */
export interface ReadWarning {
  readonly kind: "upgraded" | "newer-version" | "field-left-out";
  readonly pointer: string;
  readonly words: string;
}

/** A document as read. */
export interface ReadDocument<Document> {
  readonly kind: string;
  /** Follows the present version of its schema. */
  readonly document: Document;
  readonly warnings: readonly ReadWarning[];
  readonly original: {
    /** Exactly what was read; kept, since an upgraded document is a new one. */
    readonly content: Uint8Array | string;
    /** The same as a JSON value, in the version in which it was written. */
    readonly value: unknown;
    readonly schemaVersion: string;
  };
}

/** What is expected of a document, and what it is called in messages. */
export interface ReadOptions<Kind extends DocumentKind = DocumentKind> {
  /** The file's name, for messages. */
  readonly file?: string;
  /** The kind or kinds of document that will do; any kind if absent. */
  readonly expect?: Kind | readonly Kind[];
}

/** A document whose kind and version are known, with what is wrong with its shape. */
export interface InspectedDocument extends ReadDocument<unknown> {
  readonly shape: Shape;
}

/**
 * Reads a document as far as its shape: strict JSON, kind, version (upgraded where old), secrets. Problems of the
 * shape are returned, so that a check can list them; everything else that makes it unreadable is thrown.
 *
 * @throws BoothkeepError input.*, document.wrong-kind, document.unknown-version, document.newer-version, document.secret
 */
export function inspectDocument(content: Uint8Array | string, options: ReadOptions = {}): InspectedDocument {
  const place: ErrorPlace = options.file === undefined ? {} : { file: options.file };
  try {
    return inspect(content, options);
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at(place) : error;
  }
}

/**
 * Reads a document that fits its schema and holds no id twice.
 *
 * @throws BoothkeepError as {@link inspectDocument}, and document.invalid with `data.problems` (the first 50) and
 *   `data.total`
 * @example
 * const { document } = readDocument(text, { expect: "boothkeep.standard" });
 * document.screens; // a Standard: its type follows from what was expected
 */
export function readDocument<Kind extends DocumentKind = DocumentKind>(
  content: Uint8Array | string,
  options: ReadOptions<Kind> = {},
): ReadDocument<DocumentTypes[Kind]> {
  const { shape, ...read } = inspectDocument(content, options);
  if (shape.total > 0) {
    const place: ErrorPlace = options.file === undefined ? {} : { file: options.file };
    throw invalidError(read.kind, shape).at(place);
  }
  return read as ReadDocument<DocumentTypes[Kind]>;
}

/** Reads a configuration. See {@link readDocument}. */
export function readConfiguration(
  content: Uint8Array | string,
  options: Omit<ReadOptions, "expect"> = {},
): ReadDocument<Configuration> {
  return readDocument(content, { ...options, expect: "boothkeep.configuration" });
}

/** Reads a unit profile. See {@link readDocument}. */
export function readProfile(
  content: Uint8Array | string,
  options: Omit<ReadOptions, "expect"> = {},
): ReadDocument<UnitProfile> {
  return readDocument(content, { ...options, expect: "boothkeep.unit-profile" });
}

function inspect(content: Uint8Array | string, options: ReadOptions): InspectedDocument {
  const value = readJson(content);
  const schema = expectedSchema(value, options);
  const secret = findSecret(value, knownNames(schema));
  if (secret !== undefined) {
    throw new BoothkeepError("document.secret", `${secret.words} No document keeps secrets.`, {
      place: { pointer: secret.pointer },
      next: "Take it out of the file, and change the secret if the file was passed on.",
    });
  }
  const versioned = toPresentVersion(value as Readonly<Record<string, unknown>>, schema);
  const checked = checkShape(versioned.value, schema, { dropUnknownFields: versioned.newerMinor });
  const schemaVersion = String((value as { schemaVersion: unknown }).schemaVersion);
  const warnings: ReadWarning[] = [];
  if (versioned.steps.length > 0) {
    warnings.push({
      kind: "upgraded",
      pointer: "/schemaVersion",
      words: `Read from version ${schemaVersion} (${versioned.steps.join(", ")}); the file itself is unchanged.`,
    });
  }
  if (versioned.newerMinor) {
    warnings.push({
      kind: "newer-version",
      pointer: "/schemaVersion",
      words: `Version ${schemaVersion} is newer than ${schema.version}, which this boothkeep knows; what it adds is left out.`,
    });
  }
  for (const dropped of checked.dropped) {
    warnings.push({ kind: "field-left-out", pointer: dropped, words: `Left out: ${dropped}.` });
  }
  return {
    kind: schema.kind,
    document: checked.value,
    warnings,
    original: { content, value, schemaVersion },
    shape: checked.shape,
  };
}

function expectedSchema(value: unknown, { expect }: ReadOptions): DocumentSchema {
  const expected: readonly string[] = expect === undefined ? DOCUMENT_KINDS : [expect].flat();
  const wanted = expect === undefined ? "a boothkeep document" : [expect].flat().map(kindWords).join(" or ");
  const kind =
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? (value as { kind?: unknown }).kind
      : undefined;
  const schema = typeof kind === "string" ? schemaOfKind(kind) : undefined;
  if (schema !== undefined && expected.includes(schema.kind)) return schema;
  const found =
    schema === undefined
      ? kind === undefined
        ? "The file does not say what kind of document it is"
        : `The file says that it is ${JSON.stringify(kind).slice(0, 60)}, which is not known`
      : `This is ${kindWords(schema.kind)}`;
  throw new BoothkeepError("document.wrong-kind", `${found}; ${wanted} was expected.`, {
    place: { pointer: "/kind" },
    next:
      schema === undefined
        ? `A boothkeep document has a "kind" such as "boothkeep.configuration".`
        : "Name the file of the other kind, or use the command for this kind.",
    data: { found: kind ?? null, expected },
  });
}

function knownNames(schema: DocumentSchema): ReadonlySet<string> {
  return new Set(schema.names.flat());
}

function invalidError(kind: string, { problems, total }: Shape): BoothkeepError {
  const first = problems.slice(0, 3).map((problem) => `${problem.pointer || "/"}: ${problem.words}`);
  const more = total > first.length ? [`(and ${total - first.length} more)`] : [];
  return new BoothkeepError(
    "document.invalid",
    `The document does not fit the schema of ${kindWords(kind)}. ${[...first, ...more].join(" ")}`,
    {
      place: { pointer: problems[0]!.pointer },
      next: "Mend these places; 'boothkeep validate' lists them all.",
      data: { problems, total },
    },
  );
}
