import { type Address, itemPath, removeAt, setAt, valueAt } from "../model/index.ts";

/** Sets or takes out one place of a document, or puts it back as it was in the original. */
export type Edit =
  | { readonly kind: "set"; readonly at: Address; readonly value: unknown }
  | { readonly kind: "remove" | "restore"; readonly at: Address };

/** Sets a place: a member, an item of a list (put at its end if no item has the key): "/outputs/left-hf/delayMs". */
export function set(at: Address, value: unknown): Edit {
  return { kind: "set", at, value };
}

/** Takes out a member or a list item. See {@link set}. */
export function remove(at: Address): Edit {
  return { kind: "remove", at };
}

/** Puts a member or a list item back as it was in the original. See {@link set}. */
export function restore(at: Address): Edit {
  return { kind: "restore", at };
}

/**
 * A copy of a document with edits made, one after the other.
 *
 * @param original where `restore` takes its values from
 * @throws TypeError when an item on the way to a place does not exist
 */
export function edited<Document extends object>(
  document: Document,
  edits: readonly Edit[],
  original: Document = document,
): Document {
  const copy = structuredClone(document);
  for (const edit of edits) {
    const path = itemPath(edit.at);
    const value = edit.kind === "set" ? edit.value : valueAt(original, path);
    const done = edit.kind === "remove" ? removeAt(copy, path) : setAt(copy, path, value);
    if (!done) throw new TypeError(`there is no ${edit.at}`);
  }
  return copy;
}
