import { pointer } from "../../base/findings/index.ts";
import { itemName, positionIn } from "./item-key.ts";
import { asJson, isList, isObject, type Json } from "./json.ts";
import { type DocumentPath, type ItemPath, isKeyIn } from "./place.ts";

/** What is at a place by ids; undefined where nothing is. The empty path is the whole document. */
export function valueAt(document: object, path: ItemPath): Json | undefined {
  return placeAt(document, path)?.value;
}

/** A place that was found: what is there, and where it is by position. */
export interface FoundPlace {
  /** Undefined: nothing is there, but it is a member of something that is. */
  readonly value: Json | undefined;
  readonly position: DocumentPath;
}

/** Finds a place by ids; undefined where an item on the way is missing. */
export function placeAt(document: object, path: ItemPath): FoundPlace | undefined {
  const position: (string | number)[] = [];
  let value: Json | undefined = asJson(document);
  for (const [depth, name] of path.entries()) {
    // Of a list that is not there nothing can be found, of a group that is not there every member is missing.
    if (value === undefined && isKeyIn(path, depth)) return undefined;
    const step: string | number = isList(value) ? positionIn(value, name) : name;
    if (step === -1) return undefined;
    position.push(step);
    value = childAt(value, step);
  }
  return { value, position };
}

/** The JSON Pointer (RFC 6901) of a place in this document; of its nearest ancestor when nothing is there. */
export function pointerTo(document: object, path: ItemPath): string {
  for (let depth = path.length; depth > 0; depth -= 1) {
    const found = placeAt(document, path.slice(0, depth));
    if (found?.value !== undefined) return pointer(...found.position);
  }
  return "";
}

/** What is at a place by position; undefined where nothing is. Takes the parts of a JSON Pointer as they are. */
export function valueAtPosition(document: object, path: DocumentPath): Json | undefined {
  return path.reduce<Json | undefined>(childAt, asJson(document));
}

/** The same place by ids: it stays the same when a list is put in another order. */
export function keyPath(document: object, path: DocumentPath): ItemPath {
  let value: Json | undefined = asJson(document);
  return path.map((part) => {
    const list = isList(value);
    value = childAt(value, part);
    return list ? itemName(value, Number(part)) : String(part);
  });
}

function childAt(value: Json | undefined, step: string | number): Json | undefined {
  if (isList(value)) return value[Number(step)];
  return isObject(value) && Object.hasOwn(value, step) ? value[step] : undefined;
}
