import { isDeepStrictEqual } from "node:util";
import { diff, type IChange } from "json-diff-ts";
import { LIST_KEYS } from "../../model/index.ts";
import type { Change, ItemPath } from "./change-set.ts";
import { byKey, keyOf } from "./identity.ts";
import { isList, isObject, type Json, type JsonObject } from "./json.ts";
import { CONFIGURATION_SHAPE, isKeyed, type Shape } from "./shape.ts";

/** The keys of lists as json-diff-ts takes them: "outputs.filters" → "id". Other lists go by index. */
const EMBEDDED_KEYS = Object.fromEntries(
  Object.entries(LIST_KEYS)
    .filter(([, key]) => key === "id" || key === "channelId")
    .map(([list, key]) => [list.replaceAll("[]", ""), key]),
);

/**
 * Every difference by identity. What is equal is left out first, item by item, because comparing alone is many times
 * faster than looking for differences; json-diff-ts sees the rest. Of it only `diff` is used, and only its nested
 * result, since its paths as text are ambiguous.
 */
export function rawChanges(before: JsonObject, after: JsonObject): readonly Change[] {
  const [left, right] = differingParts(before, after);
  const found = diff(left, right, { embeddedObjKeys: EMBEDDED_KEYS });
  return changesInObject(found, { before: left, after: right, shape: CONFIGURATION_SHAPE, path: [] });
}

/** Both documents without the members, and without the items of their lists, that are equal in both. */
function differingParts(before: JsonObject, after: JsonObject): readonly [JsonObject, JsonObject] {
  const left: Record<string, Json> = {};
  const right: Record<string, Json> = {};
  for (const name of new Set([...Object.keys(before), ...Object.keys(after)])) {
    const [a, b] = [before[name], after[name]];
    if (a === b) continue;
    const shape = CONFIGURATION_SHAPE.members.get(name);
    if (isList(a) && isList(b) && shape !== undefined && isKeyed(shape)) {
      [left[name], right[name]] = differingItems(a, b, shape);
    } else if (!isDeepStrictEqual(a, b)) {
      if (a !== undefined) left[name] = a;
      if (b !== undefined) right[name] = b;
    }
  }
  return [left, right];
}

function differingItems(before: readonly Json[], after: readonly Json[], list: Shape): [Json[], Json[]] {
  const left = byKey(before, list);
  const right = byKey(after, list);
  const same = new Set(
    [...left].filter(([key, item]) => isDeepStrictEqual(item, right.get(key))).map(([key]) => key),
  );
  const differs = (item: Json): boolean => !same.has(keyOf(item, list));
  return [before.filter(differs), after.filter(differs)];
}

/** A part of both documents, with its place. */
interface Part {
  readonly before: Json | undefined;
  readonly after: Json | undefined;
  readonly shape: Shape;
  readonly path: ItemPath;
}

function memberOf(part: Part, name: string): Part {
  return {
    before: isObject(part.before) ? part.before[name] : undefined,
    after: isObject(part.after) ? part.after[name] : undefined,
    shape: part.shape.members.get(name)!,
    path: [...part.path, name],
  };
}

function itemOf(part: Part, key: string): Part {
  const find = (list: Json | undefined): Json | undefined =>
    isList(list) ? list.find((item) => keyOf(item, part.shape) === key) : undefined;
  return {
    before: find(part.before),
    after: find(part.after),
    shape: part.shape.list!.item,
    path: [...part.path, key],
  };
}

function changesInObject(found: readonly IChange[], part: Part): readonly Change[] {
  const names = [...new Set(found.map(({ key }) => key))];
  return names.flatMap((name) => {
    const member = memberOf(part, name);
    const change = found.find(({ key }) => key === name)!;
    if (change.changes === undefined) return [wholeChange(member)];
    if (change.embeddedKey === undefined) return changesInObject(change.changes, member);
    return change.embeddedKey === "$index"
      ? changesByIndex(change.changes, member)
      : change.changes.flatMap((item) => changesInItem(item, member));
  });
}

function changesInItem(change: IChange, list: Part): readonly Change[] {
  const item = itemOf(list, change.key);
  return change.changes === undefined ? [wholeChange(item)] : changesInObject(change.changes, item);
}

/** A list by index: each band by itself; as a whole when its length changed or a single place has no meaning. */
function changesByIndex(found: readonly IChange[], list: Part): readonly Change[] {
  if (list.shape.list?.key === "whole" || found.some(({ type }) => type !== "UPDATE"))
    return [wholeChange(list)];
  return found.map(({ key, oldValue, value }) => ({
    kind: "changed",
    path: [...list.path, String(key)],
    field: list.shape.list!.item.field,
    before: oldValue as Json,
    after: value as Json,
  }));
}

function wholeChange({ before, after, shape, path }: Part): Change {
  const at = { path, field: shape.field };
  if (before === undefined) return { kind: "added", ...at, after: after as Json };
  if (after === undefined) return { kind: "removed", ...at, before };
  return { kind: "changed", ...at, before, after };
}
