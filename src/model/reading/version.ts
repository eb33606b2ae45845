import { BoothkeepError } from "../../base/errors/index.ts";
import type { DocumentSchema } from "../generated/validators.js";
import { type OldDocument, type Upgrade, upgradesFrom } from "../upgrades/index.ts";
import { kindWords } from "./document-kinds.ts";

/** A document brought to the version of its schema, and how it got there. */
export interface VersionedDocument {
  readonly value: Readonly<Record<string, unknown>>;
  readonly steps: readonly string[];
  /** True: of a newer minor version, so it may hold fields that are not known yet. */
  readonly newerMinor: boolean;
}

const VERSION = /^(0|[1-9]\d*)\.(0|[1-9]\d*)\.(0|[1-9]\d*)$/;

/**
 * Brings a document of an older version up to the present one, step by step; lets a newer minor version pass.
 *
 * @throws BoothkeepError document.unknown-version, document.newer-version, document.not-upgradable
 */
export function toPresentVersion(
  document: Readonly<Record<string, unknown>>,
  schema: DocumentSchema,
): VersionedDocument {
  const found = document.schemaVersion;
  const parts = typeof found === "string" ? VERSION.exec(found) : null;
  if (parts === null) {
    throw new BoothkeepError(
      "document.unknown-version",
      found === undefined
        ? "The document does not say which schema version it follows."
        : `The schema version ${JSON.stringify(found)} is no version.`,
      {
        place: { pointer: "/schemaVersion" },
        next: `Set "schemaVersion" to "${schema.version}" if the document was made for this version.`,
      },
    );
  }
  const [major, minor] = [Number(parts[1]), Number(parts[2])];
  const [ownMajor = 0, ownMinor = 0] = schema.version.split(".").map(Number);
  if (major > ownMajor) {
    throw new BoothkeepError(
      "document.newer-version",
      `The document follows version ${found} of ${kindWords(schema.kind)}; this boothkeep knows ${schema.version}.`,
      {
        place: { pointer: "/schemaVersion" },
        next: "Update boothkeep. The document itself is untouched and stays as good as it was.",
        data: { found, known: schema.version },
      },
    );
  }
  if (major === ownMajor) {
    const value = found === schema.version ? document : { ...document, schemaVersion: schema.version };
    return { value, steps: [], newerMinor: minor > ownMinor };
  }
  return upgraded(document, `${major}.${minor}`, schema);
}

function upgraded(
  document: Readonly<Record<string, unknown>>,
  from: string,
  schema: DocumentSchema,
): VersionedDocument {
  const upgrades = upgradesFrom(schema.kind, from);
  if (upgrades.length === 0) {
    throw new BoothkeepError(
      "document.unknown-version",
      `There was no version ${String(document.schemaVersion)} of ${kindWords(schema.kind)}.`,
      {
        place: { pointer: "/schemaVersion" },
        next: `Check the version; the present one is ${schema.version}.`,
      },
    );
  }
  const value = upgrades.reduce((item, upgrade) => applied(item, upgrade), document);
  return {
    value: { ...value, schemaVersion: schema.version },
    steps: upgrades.map(({ from, to }) => `${from} to ${to}`),
    newerMinor: false,
  };
}

function applied(document: OldDocument, upgrade: Upgrade): OldDocument {
  const refusal = upgrade.refusal?.(document);
  if (refusal === undefined) return upgrade.apply(document);
  const { pointer, words, next } = refusal;
  throw new BoothkeepError("document.not-upgradable", words, { place: { pointer }, next });
}
