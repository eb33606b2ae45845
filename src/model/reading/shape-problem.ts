/** What can be wrong with the shape of a document, one code each. */
export const SHAPE_FAULTS = [
  "unknown-field",
  "missing-field",
  "field-not-here",
  "wrong-type",
  "unknown-value",
  "outside-limits",
  "wrong-text",
  "wrong-count",
  "duplicate-id",
] as const;
/** What can be wrong with the shape of a document. */
export type ShapeFault = (typeof SHAPE_FAULTS)[number];

/** One place at which a document does not fit its schema. */
export interface ShapeProblem {
  readonly fault: ShapeFault;
  /** JSON Pointer of the field (of the object, for a missing field). */
  readonly pointer: string;
  /** A sentence: what is wrong and what was expected. */
  readonly words: string;
  /** The name or value that was most likely meant. */
  readonly meant?: string;
}
