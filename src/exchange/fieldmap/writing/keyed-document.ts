import { type ItemPath, isKeyIn, itemKey, type KeyedItem, valueAt } from "../../../model/index.ts";

/** Looks up places of a document by the keys of its items. */
export class KeyedDocument {
  readonly #document: unknown;
  /** Bindings of one item share one path. */
  readonly #found = new Map<ItemPath, unknown>();
  readonly #items = new Map<object, ReadonlyMap<string | undefined, unknown>>();

  constructor(document: unknown) {
    this.#document = document;
  }

  /** What is at a path; undefined if the document has none. */
  at(path: ItemPath): unknown {
    if (this.#found.has(path)) return this.#found.get(path);
    let value: unknown = this.#document;
    for (const part of path) {
      if (typeof value !== "object" || value === null) break;
      value = Array.isArray(value) ? this.#itemsOf(value).get(part) : memberAt(value, [part]);
    }
    this.#found.set(path, value);
    return value;
  }

  #itemsOf(list: object): ReadonlyMap<string | undefined, unknown> {
    const known = this.#items.get(list);
    if (known !== undefined) return known;
    const items = new Map((list as readonly KeyedItem[]).map((item) => [itemKey(item), item]));
    this.#items.set(list, items);
    return items;
  }
}

/** What is at a place inside an item; undefined where there is no item. */
export function memberAt(object: unknown, names: readonly string[]): unknown {
  return typeof object === "object" && object !== null ? valueAt(object, names) : undefined;
}

/** A path as one text, to compare paths that are not one object. */
export function pathId(path: readonly string[]): string {
  return path.join("\u0000");
}

/** The path of the item around a list or an item of it: everything up to the last key before. */
export function pathAround(path: ItemPath): ItemPath {
  const end = path.findLastIndex((_part, i) => i < path.length - 1 && isKeyIn(path, i));
  return path.slice(0, end + 1);
}
