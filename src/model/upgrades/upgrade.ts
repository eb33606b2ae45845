/** A document as plain JSON, of a version whose schema is no longer at hand. */
export type OldDocument = Readonly<Record<string, unknown>>;

/** One step from a version of a document kind to the next. */
export interface Upgrade {
  readonly kind: string;
  /** MAJOR.MINOR of the version it reads. */
  readonly from: string;
  readonly to: string;
  /** What is different, for people. */
  readonly changes: readonly string[];
  /** Never throws: what does not look as expected is left as it is, so that the schema can name it. */
  readonly apply: (document: OldDocument) => OldDocument;
  /** What a document of this version said that the next cannot say; undefined where nothing. Asked before `apply`. */
  readonly refusal?: (document: OldDocument) => UpgradeRefusal | undefined;
}

/** Why a document cannot be brought to the next version. */
export interface UpgradeRefusal {
  /** JSON Pointer in the document. */
  readonly pointer: string;
  readonly words: string;
  readonly next: string;
}
