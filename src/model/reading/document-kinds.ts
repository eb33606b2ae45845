import { type DocumentSchema, documentSchemas } from "../generated/validators.js";
import type { DocumentKind } from "./document-types.ts";

const byKind: ReadonlyMap<string, DocumentSchema> = new Map(
  documentSchemas.map((schema) => [schema.kind, schema]),
);

/** The schema of a kind of document, or undefined if there is no such kind. */
export function schemaOfKind(kind: string): DocumentSchema | undefined {
  return byKind.get(kind);
}

/** Every kind of document that can be read. */
export const DOCUMENT_KINDS: readonly DocumentKind[] = documentSchemas.map(
  // A test compares the schemas with the words below, and the compiler those with the types.
  (schema) => schema.kind as DocumentKind,
);

/** Kinds of document in words that a sentence can take: "a unit profile was expected". */
const KIND_WORDS: Readonly<Record<DocumentKind, string>> = {
  "boothkeep.audit": "an audit",
  "boothkeep.comparison": "a comparison",
  "boothkeep.configuration": "a configuration",
  "boothkeep.confirmation": "a confirmation",
  "boothkeep.decision-classes": "a list of decision classes",
  "boothkeep.decisions": "a decisions file of a migration",
  "boothkeep.entry": "a logbook entry",
  "boothkeep.field-map": "a field map",
  "boothkeep.logbook": "the description of a logbook",
  "boothkeep.loudspeaker-data": "a file of loudspeaker data",
  "boothkeep.pack": "the contents list of a pack",
  "boothkeep.plan": "a migration plan",
  "boothkeep.proof": "a proof",
  "boothkeep.proposal": "a proposal",
  "boothkeep.rule-settings": "a file of rule settings",
  "boothkeep.screen-description": "a screen description",
  "boothkeep.signature-policy": "a signature policy",
  "boothkeep.standard": "a house standard",
  "boothkeep.standard-decisions": "a decisions file of a standard",
  "boothkeep.unit-profile": "a unit profile",
};

/** "boothkeep.unit-profile" in words: "a unit profile". */
export function kindWords(kind: string): string {
  return isKind(kind) ? KIND_WORDS[kind] : `a document of the kind '${kind}'`;
}

function isKind(kind: string): kind is DocumentKind {
  return Object.hasOwn(KIND_WORDS, kind);
}
