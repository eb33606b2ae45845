import type { ItemPath, Json } from "../../model/index.ts";

/** One difference between two configurations. */
export type Change = ValueChanged | PartAdded | PartRemoved;

/** Where something changed. */
export interface ChangeAt {
  /** Where it stands, with the keys of the second document. */
  readonly path: ItemPath;
  /** The same without keys, as in the table of fields: "outputs[].highPass.frequencyHz". */
  readonly field: string;
}

/** A leaf, or a list that makes sense only as a whole, has another value. */
export interface ValueChanged extends ChangeAt {
  readonly kind: "changed";
  readonly before: Json;
  readonly after: Json;
}

/** An item or a member that the first document lacks; with all that is below it. */
export interface PartAdded extends ChangeAt {
  readonly kind: "added";
  readonly after: Json;
}

/** An item or a member that the second document lacks; with all that was below it. */
export interface PartRemoved extends ChangeAt {
  readonly kind: "removed";
  readonly before: Json;
}

/** An item that has another key, while all references to it follow. */
export interface Rename {
  /** The list, with the keys of the second document. */
  readonly path: ItemPath;
  /** "loudspeakers[].ways" */
  readonly field: string;
  readonly before: string;
  readonly after: string;
  /** How the two were known as one: nothing else differs; the outputs feed the same; its old name was needed for such. */
  readonly because: "same-content" | "same-feed" | "made-room";
}

/** A key in the first document and the key of the same thing in the second. */
export interface KeyPair {
  readonly before: string;
  readonly after: string;
  readonly because: Rename["because"];
}

/** The order of a keyed list's items, where it differs. No change of meaning, kept so that a document comes back exactly. */
export interface ListOrder {
  readonly path: ItemPath;
  readonly field: string;
  /** Keys in the first document, in the second document's names. */
  readonly before: readonly string[];
  readonly after: readonly string[];
}

/**
 * All that differs between two configurations. To get from the first to the second: rename, then change, then order.
 */
export interface ChangeSet {
  readonly renames: readonly Rename[];
  readonly changes: readonly Change[];
  readonly orders: readonly ListOrder[];
}
