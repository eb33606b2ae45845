import { fieldAt, fieldsUnder, LIST_KEYS } from "../../model/index.ts";

/** A place without its keys: `["presets", "*", "levelDb"]` is "presets[].levelDb". */
export function fieldPath(parts: readonly string[]): string {
  let field = "";
  for (const part of parts) {
    if (Object.hasOwn(LIST_KEYS, field)) field = `${field}[]`;
    else field = field === "" ? part : `${field}.${part}`;
  }
  return field;
}

/** What stands at a field: one value, a list whose items have keys, another list, a group of members, or nothing. */
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
