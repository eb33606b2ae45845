import { FIELDS, type Field, fieldAt, fieldsUnder, LIST_KEYS, type ListKey } from "../fields.ts";
import type { ItemPath } from "./place.ts";

/** The shape of a part of a configuration: what may stand below it. Made from the table of fields. */
export interface DocumentShape {
  /** "outputs[].highPass" */
  readonly field: string;
  /** The leaf's line, where it is one. */
  readonly leaf?: Field;
  readonly members: ReadonlyMap<string, DocumentShape>;
  /** How the items of a list are told apart, and their shape. */
  readonly list?: { readonly key: ListKey; readonly item: DocumentShape };
}

interface Growing extends DocumentShape {
  leaf?: Field;
  readonly members: Map<string, Growing>;
  list?: { readonly key: ListKey; readonly item: Growing };
}

function grow(field: string): Growing {
  return { field, members: new Map() };
}

function memberOf(shape: Growing, name: string): Growing {
  const field = shape.field === "" ? name : `${shape.field}.${name}`;
  const member = shape.members.get(name) ?? grow(field);
  shape.members.set(name, member);
  return member;
}

function itemOf(shape: Growing): Growing {
  shape.list ??= { key: LIST_KEYS[shape.field]!, item: grow(`${shape.field}[]`) };
  return shape.list.item;
}

function shapeFromFields(): DocumentShape {
  const root = grow("");
  for (const field of FIELDS) {
    let shape = root;
    for (const part of field.path.split(".")) {
      shape = memberOf(shape, part.replace("[]", ""));
      if (part.endsWith("[]")) shape = itemOf(shape);
    }
    shape.leaf = field;
  }
  return root;
}

/** The shape of a whole configuration. */
export const CONFIGURATION_SHAPE: DocumentShape = shapeFromFields();

/** Whether the items of a list have keys of their own. */
export function isKeyed(shape: DocumentShape): boolean {
  return shape.list?.key === "id" || shape.list?.key === "channelId";
}

/** The shape at a place; `undefined` for a place that no configuration has. */
export function shapeAt(path: ItemPath): DocumentShape | undefined {
  let shape: DocumentShape | undefined = CONFIGURATION_SHAPE;
  for (const part of path) shape = shape?.list?.item ?? shape?.members.get(part);
  return shape;
}

/** What is at a field: one value, a list whose items have keys, another list, a group of members, or nothing. */
export function sortOfField(field: string): "leaf" | "keyed-list" | "other-list" | "group" | "unknown" {
  if (fieldAt(field) !== undefined) return "leaf";
  if (Object.hasOwn(LIST_KEYS, field)) {
    return LIST_KEYS[field] === "id" || LIST_KEYS[field] === "channelId" ? "keyed-list" : "other-list";
  }
  return fieldsUnder(field).length > 0 ? "group" : "unknown";
}

/** The member by which the items of a keyed list are told apart. */
export function keyMember(listField: string): "id" | "channelId" {
  return LIST_KEYS[listField] === "channelId" ? "channelId" : "id";
}
