import { LIST_KEYS } from "../fields.ts";

/**
 * A place of a document by ids: members by name, items of lists by their key, items without one (bands of a fixed layout,
 * taps) by their position from 0. `["outputs", "out-3", "highPass", "frequencyHz"]` is the same place whatever the order of
 * the lists.
 */
export type ItemPath = readonly string[];

/** An {@link ItemPath} as one text: "outputs/out-3/highPass/frequencyHz". Neither names nor keys have a slash in them. */
export type Address = string;

/** A place of a document as it is read: members by name, items by their position. The parts of a JSON Pointer (RFC 6901). */
export type DocumentPath = readonly (string | number)[];

export function addressOf(path: ItemPath): Address {
  return path.join("/");
}

/** The place that an address says; rule settings and the rule book write it with a slash before: "/outputs/out-3". */
export function itemPath(address: Address): ItemPath {
  return address === "" ? [] : address.replace(/^\//, "").split("/");
}

/** The line of the table of fields to which a place belongs: "outputs[].highPass.frequencyHz". Keys may be anything. */
export function fieldOf(path: ItemPath): string {
  let field = "";
  for (const part of path) {
    if (Object.hasOwn(LIST_KEYS, field)) field = `${field}[]`;
    else field = field === "" ? part : `${field}.${part}`;
  }
  return field;
}

/** Whether a part of a place is the name of an item of a list, no member. */
export function isKeyIn(path: ItemPath, depth: number): boolean {
  return Object.hasOwn(LIST_KEYS, fieldOf(path.slice(0, depth)));
}

/** The keys on the way to a place: of `["equalizations", "feature", "channels", "C"]` "feature" and "C". */
export function keysOf(path: ItemPath): readonly string[] {
  return path.filter((_part, depth) => isKeyIn(path, depth));
}
