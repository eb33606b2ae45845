import { type DocumentSchema, documentSchemas } from "../generated/validators.js";

const byKind: ReadonlyMap<string, DocumentSchema> = new Map(
  documentSchemas.map((schema) => [schema.kind, schema]),
);

/** The schema of a kind of document, or undefined if there is no such kind. */
export function schemaOfKind(kind: string): DocumentSchema | undefined {
  return byKind.get(kind);
}

/** Every kind of document that can be read. */
export const DOCUMENT_KINDS: readonly string[] = documentSchemas.map((schema) => schema.kind);

/** "boothkeep.unit-profile" in words: "a unit profile". */
export function kindWords(kind: string): string {
  const name = kind.replace(/^boothkeep\./, "").replaceAll("-", " ");
  return `${/^[aeio]/.test(name) ? "an" : "a"} ${name}`;
}
