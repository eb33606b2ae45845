import { FIELDS, type Field, LIST_KEYS, type ListKey } from "../../model/index.ts";

/** The shape of a part of a configuration: what may stand below it. Made from the table of fields. */
export interface Shape {
  /** "outputs[].highPass" */
  readonly field: string;
  /** The leaf's line, where it is one. */
  readonly leaf?: Field;
  readonly members: ReadonlyMap<string, Shape>;
  /** How the items of a list are told apart, and their shape. */
  readonly list?: { readonly key: ListKey; readonly item: Shape };
}

interface Growing extends Shape {
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

function shapeFromFields(): Shape {
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
export const CONFIGURATION_SHAPE: Shape = shapeFromFields();

/** Whether the items of a list have keys of their own. */
export function isKeyed(shape: Shape): boolean {
  return shape.list?.key === "id" || shape.list?.key === "channelId";
}
