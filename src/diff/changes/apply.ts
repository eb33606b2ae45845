import { isDeepStrictEqual } from "node:util";
import { BoothkeepError } from "../../base/errors/index.ts";
import { pointer } from "../../base/findings/index.ts";
import type { Configuration } from "../../model/index.ts";
import type { Change, ChangeSet, ItemPath, ListOrder } from "./change-set.ts";
import { keyOf } from "./identity.ts";
import { isObject, type Json, type JsonObject } from "./json.ts";
import { shapeAt, valueAt } from "./place.ts";
import { renamed } from "./renaming.ts";
import { isKeyed } from "./shape.ts";

/**
 * The second document from the first and the changes between the two. Works on any document that has the same
 * values at the places that change.
 *
 * @throws BoothkeepError `changes.do-not-fit` when a place is missing or holds another value than the change says.
 */
export function applyChanges(document: Configuration, set: ChangeSet): Configuration {
  const aligned = renamed(document as unknown as JsonObject, set.renames, "forward");
  const draft = edited(aligned, set.changes);
  for (const { path, after } of set.orders) reorder(draft, path, after);
  return draft as unknown as Configuration;
}

/** The first document from the second and the changes between the two: the way back of {@link applyChanges}. */
export function revertChanges(document: Configuration, set: ChangeSet): Configuration {
  const draft = edited(document as unknown as JsonObject, [...set.changes].reverse().map(reversed));
  for (const { path, before } of set.orders) reorder(draft, path, before);
  return renamed(draft, set.renames, "backward") as unknown as Configuration;
}

function reversed(change: Change): Change {
  const { path, field } = change;
  if (change.kind === "added") return { kind: "removed", path, field, before: change.after };
  if (change.kind === "removed") return { kind: "added", path, field, after: change.before };
  return { kind: "changed", path, field, before: change.after, after: change.before };
}

type Draft = Record<string, Json>;

/** A copy with the changes carried out. */
function edited(document: JsonObject, changes: readonly Change[]): JsonObject {
  const draft = structuredClone(document) as JsonObject;
  for (const change of changes) edit(draft, change);
  return draft;
}

function edit(draft: JsonObject, change: Change): void {
  const document = draft as unknown as Configuration;
  const parent = change.path.slice(0, -1);
  const name = change.path.at(-1)!;
  const container = valueAt(document, parent);
  const expected = change.kind === "added" ? undefined : change.before;
  if (shapeAt(change.path) === undefined || typeof container !== "object" || container === null)
    throw unfit(change);
  if (!isDeepStrictEqual(valueAt(document, change.path), expected)) throw unfit(change);
  if (isObject(container)) {
    if (change.kind === "removed") delete (container as Draft)[name];
    else (container as Draft)[name] = structuredClone(change.after);
  } else {
    editList(container as Json[], change, parent);
  }
}

function editList(list: Json[], change: Change, path: ItemPath): void {
  const shape = shapeAt(path)!;
  const name = change.path.at(-1)!;
  const index = isKeyed(shape) ? list.findIndex((item) => keyOf(item, shape) === name) : Number(name);
  if (change.kind === "removed") list.splice(index, 1);
  else if (change.kind === "added") list.push(structuredClone(change.after));
  else list[index] = structuredClone(change.after);
}

/** Puts the items of a list into an order; items that the order does not name stay behind the others. */
function reorder(draft: JsonObject, path: ItemPath, keys: ListOrder["after"]): void {
  const list = valueAt(draft as unknown as Configuration, path) as Json[] | undefined;
  const shape = shapeAt(path);
  if (list === undefined || shape === undefined) return;
  const rank = new Map(keys.map((key, index) => [key, index]));
  const rankOf = (item: Json): number => rank.get(keyOf(item, shape)) ?? keys.length;
  list.sort((a, b) => rankOf(a) - rankOf(b));
}

function unfit({ path }: Change): BoothkeepError {
  return new BoothkeepError("changes.do-not-fit", "A change does not fit this configuration.", {
    place: { pointer: pointer(...path) },
    next: "Apply changes only to the configuration that they were found in, or to one that agrees in these places.",
  });
}
