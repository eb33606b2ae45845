import { pointer } from "../../base/findings/index.ts";
import { itemName } from "./item-key.ts";
import { asJson, isList, isObject, type Json } from "./json.ts";
import type { Address, ItemPath } from "./place.ts";

export type LeafValue = string | number | boolean | null;

/** A single value of a document, with its place in both forms. */
export interface Leaf {
  readonly address: Address;
  /** JSON Pointer (RFC 6901). */
  readonly pointer: string;
  readonly value: LeafValue;
}

/** Every leaf of a document, in the order of the document. Empty lists and objects have none. */
export function leaves(document: object): readonly Leaf[] {
  const found: Leaf[] = [];
  const visit = (value: Json | undefined, address: Address, at: string): void => {
    if (value === undefined) return;
    const inside = address === "" ? "" : `${address}/`;
    if (isList(value)) {
      for (const [index, item] of value.entries())
        visit(item, inside + itemName(item, index), `${at}/${index}`);
    } else if (isObject(value)) {
      for (const [name, member] of Object.entries(value)) visit(member, inside + name, at + pointer(name));
    } else found.push({ address, pointer: at, value });
  };
  visit(asJson(document), "", "");
  return found;
}

/** Every leaf value of a document by its address, in the order of the document. */
export function leavesOf(document: object): ReadonlyMap<Address, LeafValue> {
  return new Map(leaves(document).map(({ address, value }) => [address, value]));
}

/** A place of a field, with what is there. */
export interface PlaceOfField {
  readonly path: ItemPath;
  readonly value: Json | undefined;
}

/**
 * Every place of a field in a configuration, in the order of the document: "presets[].levelDb" gives one for each preset.
 * Members that are missing are given as undefined; of lists only the items that are there.
 */
export function placesOf(document: object, field: string): readonly PlaceOfField[] {
  let open: readonly PlaceOfField[] = [{ path: [], value: asJson(document) }];
  for (const step of field.replaceAll("[]", ".[]").split(".")) {
    open = open.flatMap(({ path, value }): readonly PlaceOfField[] => {
      if (step !== "[]") {
        const isInside = isObject(value) && Object.hasOwn(value, step);
        return [{ path: [...path, step], value: isInside ? value[step] : undefined }];
      }
      const items = isList(value) ? value : [];
      return items.map((item, index) => ({ path: [...path, itemName(item, index)], value: item }));
    });
  }
  return open;
}
