import { isDeepStrictEqual } from "node:util";
import { BoothkeepError } from "../../base/errors/index.ts";
import { pointer } from "../../base/findings/index.ts";
import {
  asJson,
  type Configuration,
  isKeyed,
  type Json,
  type JsonObject,
  removeAt,
  setAt,
  shapeAt,
  valueAt,
} from "../../model/index.ts";
import type { Change, ChangeSet, ListOrder } from "./change-set.ts";
import { keyOf } from "./identity.ts";
import { renamed } from "./renaming.ts";

/**
 * The second document from the first and the changes between the two. Works on any document that has the same
 * values at the places that change.
 *
 * @throws BoothkeepError `changes.do-not-fit` when a place is missing or holds another value than the change says.
 */
export function applyChanges(document: Configuration, set: ChangeSet): Configuration {
  const draft = edited(renamed(asJson(document), set.renames, "forward"), set.changes);
  for (const { path, after } of set.orders) reorder(draft, path, after);
  return asConfiguration(draft);
}

/** The first document from the second and the changes between the two: the way back of {@link applyChanges}. */
export function revertChanges(document: Configuration, set: ChangeSet): Configuration {
  const draft = edited(asJson(document), [...set.changes].reverse().map(reversed));
  for (const { path, before } of set.orders) reorder(draft, path, before);
  return asConfiguration(renamed(draft, set.renames, "backward"));
}

function asConfiguration(draft: object): Configuration {
  return draft as Configuration;
}

function reversed(change: Change): Change {
  const { path, field } = change;
  if (change.kind === "added") return { kind: "removed", path, field, before: change.after };
  if (change.kind === "removed") return { kind: "added", path, field, after: change.before };
  return { kind: "changed", path, field, before: change.after, after: change.before };
}

/** A copy with the changes carried out. */
function edited(document: JsonObject, changes: readonly Change[]): JsonObject {
  const draft = structuredClone(document) as JsonObject;
  for (const change of changes) edit(draft, change);
  return draft;
}

function edit(draft: JsonObject, change: Change): void {
  const { path } = change;
  const container = valueAt(draft, path.slice(0, -1));
  const expected = change.kind === "added" ? undefined : change.before;
  if (shapeAt(path) === undefined || typeof container !== "object" || container === null) throw unfit(change);
  if (!isDeepStrictEqual(valueAt(draft, path), expected)) throw unfit(change);
  if (change.kind === "removed") removeAt(draft, path);
  else setAt(draft, path, change.after);
}

/** Puts the items of a list into an order; items that the order does not name stay behind the others. */
function reorder(draft: JsonObject, path: Change["path"], keys: ListOrder["after"]): void {
  const list = valueAt(draft, path) as Json[] | undefined;
  const shape = shapeAt(path);
  if (list === undefined || shape === undefined || !isKeyed(shape)) return;
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
