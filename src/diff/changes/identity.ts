import { BoothkeepError } from "../../base/errors/index.ts";
import { pointer } from "../../base/findings/index.ts";
import {
  type DocumentShape,
  isKeyed,
  isList,
  isObject,
  type Json,
  type JsonObject,
} from "../../model/index.ts";

/** Names that JavaScript objects give a meaning of their own: as a key of an item each would be lost or do harm. */
const UNUSABLE = new Set(["__proto__", "constructor", "prototype"]);

/** The key of an item of a keyed list; "" where it has none. */
export function keyOf(item: Json, list: DocumentShape): string {
  const key = isObject(item) ? item[list.list!.key] : undefined;
  return typeof key === "string" ? key : "";
}

/** The items of a keyed list by their keys. */
export function byKey(items: readonly Json[], list: DocumentShape): ReadonlyMap<string, JsonObject> {
  return new Map(items.map((item) => [keyOf(item, list), item as JsonObject]));
}

/**
 * Makes sure that a part of a configuration can be compared by identity: only known members, every item of a keyed
 * list with a key that no other item of that list has. Otherwise changes would silently be missed.
 *
 * @throws BoothkeepError `changes.unclear-identity`, `document.invalid`
 */
export function checkComparable(
  value: Json,
  shape: DocumentShape,
  place: readonly (string | number)[],
): void {
  if (isList(value)) {
    if (shape.list === undefined || !isKeyed(shape)) return;
    const seen = new Set<string>();
    for (const [index, item] of value.entries()) {
      const key = keyOf(item, shape);
      if (key === "" || seen.has(key) || UNUSABLE.has(key)) throw unclear(key, pointer(...place, index));
      seen.add(key);
      checkComparable(item, shape.list.item, [...place, index]);
    }
  } else if (isObject(value)) {
    for (const name of Object.keys(value)) {
      const member = shape.members.get(name);
      if (member === undefined) throw unknownMember(name, pointer(...place, name));
      const child = value[name]!;
      if (typeof child === "object") checkComparable(child, member, [...place, name]);
    }
  }
}

function unclear(key: string, at: string): BoothkeepError {
  const what =
    key === ""
      ? "An item of a list has no key."
      : UNUSABLE.has(key)
        ? `'${key}' cannot be a key.`
        : `Two items of one list have the key '${key}'.`;
  return new BoothkeepError("changes.unclear-identity", what, {
    place: { pointer: at, ...(key === "" ? {} : { id: key }) },
    next: "Give every item of the list a key of its own, then compare again.",
  });
}

function unknownMember(name: string, at: string): BoothkeepError {
  return new BoothkeepError("document.invalid", `'${name}' is no part of a configuration.`, {
    place: { pointer: at },
    next: "Check the document with 'boothkeep validate'.",
  });
}
