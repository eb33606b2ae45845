import { LIST_KEYS } from "../fields.ts";
import { positionIn } from "./item-key.ts";
import { asJson, isList, isObject, type Json } from "./json.ts";
import { type DocumentPath, fieldOf, type ItemPath } from "./place.ts";
import { valueAtPosition } from "./resolve.ts";

type Members = { [name: string]: Json };

/**
 * Sets a place of a draft. Groups and lists on the way are made, items of lists are not; a new item is put at the end of
 * its list.
 *
 * @param draft is changed
 * @returns whether it could be: false where an item on the way is missing
 */
export function setAt(draft: object, path: ItemPath, value: unknown): boolean {
  const holder = holderOf(asJson(draft), path, true);
  const name = path.at(-1)!;
  const copy = structuredClone(value) as Json;
  if (isList(holder)) {
    const position = positionIn(holder, name);
    (holder as Json[])[position < 0 ? holder.length : position] = copy;
  } else if (isObject(holder)) (holder as Members)[name] = copy;
  else return false;
  return true;
}

/**
 * Takes out a member or an item of a draft.
 *
 * @param draft is changed
 * @returns whether what it was in is there
 */
export function removeAt(draft: object, path: ItemPath): boolean {
  const holder = holderOf(asJson(draft), path, false);
  const name = path.at(-1)!;
  if (isList(holder)) {
    const position = positionIn(holder, name);
    if (position >= 0) (holder as Json[]).splice(position, 1);
  } else if (isObject(holder)) delete (holder as Members)[name];
  else return false;
  return true;
}

/** Sets a place by position; undefined takes a member out. What it is in must be there. */
export function setAtPosition(draft: object, path: DocumentPath, value: Json | undefined): void {
  const holder = valueAtPosition(draft, path.slice(0, -1)) as Members;
  const name = path.at(-1)!;
  if (value === undefined) delete holder[name];
  else holder[name] = value;
}

/** What a place is in. */
function holderOf(draft: Json, path: ItemPath, make: boolean): Json | undefined {
  let holder: Json | undefined = draft;
  for (const [depth, name] of path.slice(0, -1).entries()) {
    if (isList(holder)) holder = holder[positionIn(holder, name)];
    else if (isObject(holder)) {
      if (make && !Object.hasOwn(holder, name))
        (holder as Members)[name] = Object.hasOwn(LIST_KEYS, fieldOf(path.slice(0, depth + 1))) ? [] : {};
      holder = Object.hasOwn(holder, name) ? holder[name] : undefined;
    } else return undefined;
  }
  return holder;
}
