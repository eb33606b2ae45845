import { type Configuration, keysOf, LIST_KEYS, placesOf } from "../../model/index.ts";

/** An object of a configuration that is being read or put together. */
export type Item = { [member: string]: unknown };

/** One list on the way to a table's items. */
export interface Level {
  /** Path of the list: "equalizations[].channels". */
  readonly list: string;
  /** The member that holds the list. */
  readonly member: string;
  /** The member that is the key of its items. */
  readonly key: string;
  /** Path of the key: "equalizations[].channels[].channelId". */
  readonly keyField: string;
}

/** The lists on the way to the items of a list, the list itself last. */
export function levelsOf(list: string): readonly Level[] {
  const members = list.split("[].");
  return members.map((member, index) => {
    const path = members.slice(0, index + 1).join("[].");
    const key = LIST_KEYS[path]!;
    return { list: path, member, key, keyField: `${path}[].${key}` };
  });
}

/** An item of a table with the keys that lead to it, outermost first. */
export interface KeyedRow {
  readonly keys: readonly string[];
  readonly item: Item;
}

/** The items of a list in the order of the configuration. */
export function keyedRows(configuration: Configuration, list: string): readonly KeyedRow[] {
  return placesOf(configuration, `${list}[]`).map(({ path, value }) => ({
    keys: keysOf(path),
    item: value as Item,
  }));
}

/** The items of a member that is a list; none where it is not there. */
export function itemsIn(item: Item, member: string): readonly Item[] {
  return (item[member] as readonly Item[] | undefined) ?? [];
}

/** Keys as one text; keys hold no line ends. */
export function keyText(keys: readonly string[]): string {
  return keys.join("\n");
}
