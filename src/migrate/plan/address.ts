import { itemKey, type KeyedItem } from "../../model/index.ts";

/**
 * The place of a value by property names and ids, from the root, joined by "/": `outputs/o-left-hf/gainDb`. Unlike a
 * JSON Pointer it does not change when a list is put in another order. Entries of plain lists go by their index.
 */
export type Address = string;

export type LeafValue = string | number | boolean | null;

/** Every leaf value of a document by its address, in the order of the document. */
export function leavesOf(document: unknown): ReadonlyMap<Address, LeafValue> {
  const leaves = new Map<Address, LeafValue>();
  collect(document, "", leaves);
  return leaves;
}

function collect(value: unknown, at: Address, into: Map<Address, LeafValue>): void {
  if (value === undefined) return;
  if (Array.isArray(value)) {
    value.forEach((item: unknown, index) => {
      collect(item, join(at, isObject(item) ? (itemKey(item as KeyedItem) ?? `${index}`) : `${index}`), into);
    });
  } else if (isObject(value)) {
    for (const [name, member] of Object.entries(value)) collect(member, join(at, name), into);
  } else {
    into.set(at, value as LeafValue);
  }
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

function join(at: Address, part: string): Address {
  return at === "" ? part : `${at}/${part}`;
}

/** Whether an address is a place or lies below it. */
export function liesUnder(address: Address, place: Address): boolean {
  return address === place || address.startsWith(`${place}/`);
}
