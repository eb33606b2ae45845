import { pointerParts } from "../base/findings/index.ts";
import { itemKey, type KeyedItem } from "../model/index.ts";

/** Sets or takes out one place of a document. */
export type Edit =
  | { readonly kind: "set"; readonly at: string; readonly value: unknown }
  | { readonly kind: "remove"; readonly at: string }
  | { readonly kind: "restore"; readonly at: string };

/**
 * Sets a place: a member, an item of a list (put at its end if no item has the key).
 *
 * @param at like a JSON Pointer, with the key of a list item in place of its position: "/outputs/left-hf/delayMs"
 */
export function set(at: string, value: unknown): Edit {
  return { kind: "set", at, value };
}

/** Takes out a member or a list item. See {@link set}. */
export function remove(at: string): Edit {
  return { kind: "remove", at };
}

/** Puts a member or a list item back as it was in the original. See {@link set}. */
export function restore(at: string): Edit {
  return { kind: "restore", at };
}

/**
 * A copy of a document with edits made, one after the other.
 *
 * @param original where `restore` takes its values from
 * @throws TypeError when a place does not exist
 */
export function edited<Document>(
  document: Document,
  edits: readonly Edit[],
  original: Document = document,
): Document {
  const copy = structuredClone(document);
  for (const edit of edits) {
    const { at } = edit;
    makeEdit(copy, edit.kind === "restore" ? { kind: "set", at, value: valueAt(original, at) } : edit);
  }
  return copy;
}

function valueAt(document: unknown, at: string): unknown {
  const parts = pointerParts(at);
  const holder = parts.slice(0, -1).reduce<unknown>((value, part) => member(value, part, at), document);
  const last = parts.at(-1)!;
  return Array.isArray(holder) ? holder[indexOf(holder, last)] : (holder as Record<string, unknown>)[last];
}

function makeEdit(document: unknown, edit: Exclude<Edit, { readonly kind: "restore" }>): void {
  const parts = pointerParts(edit.at);
  const holder = parts.slice(0, -1).reduce<unknown>((value, part) => member(value, part, edit.at), document);
  const last = parts.at(-1)!;
  if (Array.isArray(holder)) {
    const index = indexOf(holder, last);
    if (edit.kind === "remove") holder.splice(index, 1);
    else if (index < 0) holder.push(edit.value);
    else holder[index] = edit.value;
  } else if (edit.kind === "remove") delete (holder as Record<string, unknown>)[last];
  else (holder as Record<string, unknown>)[last] = edit.value;
}

function member(value: unknown, part: string, at: string): unknown {
  const found = Array.isArray(value)
    ? value[indexOf(value, part)]
    : (value as Record<string, unknown> | undefined)?.[part];
  if (typeof found !== "object" || found === null) throw new TypeError(`there is no ${at} (at ${part})`);
  return found;
}

function indexOf(list: readonly unknown[], key: string): number {
  const byKey = list.findIndex(
    (item) => typeof item === "object" && item !== null && itemKey(item as KeyedItem) === key,
  );
  return byKey < 0 && /^\d+$/.test(key) && typeof list[0] !== "object" ? Number(key) : byKey;
}
