import type { Json } from "../../model/index.ts";
import { fieldPath, keyMember, sortOfField } from "./field-path.ts";

/** A copy of a document that is being edited. */
// biome-ignore lint/suspicious/noExplicitAny: any part of a document, on the way to a place that its shape has
type Draft = any;

/**
 * Writes a value at a place by ids; null takes away what stands there. Groups of members on the way are made; items of
 * lists are not. A new item is put at the end of its list.
 */
export function writeAt(draft: Draft, path: readonly string[], value: Json | undefined): void {
  let here = draft;
  const gone = value === null || value === undefined;
  for (const [index, part] of path.entries()) {
    const at = path.slice(0, index);
    const last = index === path.length - 1;
    if (Array.isArray(here)) {
      const position = positionIn(here, fieldPath(at), part);
      if (!last) here = here[position];
      else if (gone) here.splice(position, position < 0 ? 0 : 1);
      else here[position < 0 ? here.length : position] = structuredClone(value);
    } else if (last) {
      if (gone) delete here[part];
      else here[part] = structuredClone(value);
    } else {
      if (here[part] === undefined && gone) return;
      here[part] ??= sortOfField(fieldPath([...at, part])) === "keyed-list" ? [] : {};
      here = here[part];
    }
    if (here === undefined) return;
  }
}

function positionIn(list: readonly Draft[], field: string, key: string): number {
  if (sortOfField(field) !== "keyed-list") return Number(key);
  const member = keyMember(field);
  return list.findIndex((item) => item?.[member] === key);
}
