/** A document as plain JSON, of a version whose schema is no longer at hand. */
export type JsonObject = Readonly<Record<string, unknown>>;

/** One step from a version of a document kind to the next. */
export interface Upgrade {
  readonly kind: string;
  /** MAJOR.MINOR of the version it reads. */
  readonly from: string;
  readonly to: string;
  /** What is different, for people. */
  readonly changes: readonly string[];
  /** Never throws: what does not look as expected is left as it is, so that the schema can name it. */
  readonly apply: (document: JsonObject) => JsonObject;
}
