import { itemKey, type KeyedItem } from "../../../src/model/index.ts";

/** A document with its lists in the order of their keys: what it says, without the order. */
export function byKeys(value: unknown): unknown {
  if (Array.isArray(value)) {
    const isKeyed = value.every((item) => typeof item === "object" && item !== null);
    const items = value.map(byKeys);
    return isKeyed ? items.sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1)) : items;
  }
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, member]) => [name, byKeys(member)]));
}

const keyOf = (item: unknown): string => itemKey(item as KeyedItem) ?? "";
