import { isDeepStrictEqual } from "node:util";
import { pointer } from "../../base/findings/index.ts";
import {
  asJson,
  CONFIGURATION_SHAPE,
  type Configuration,
  type DocumentPath,
  type DocumentShape,
  isKeyed,
  isList,
  isObject,
  type Json,
  type JsonObject,
} from "../../model/index.ts";
import { byKey, keyOf } from "./identity.ts";
import { longestRisingRun } from "./rising-run.ts";

/** One operation of a JSON Patch (RFC 6902 section 4). */
export type PatchOperation =
  | { readonly op: "add" | "replace"; readonly path: string; readonly value: Json }
  | { readonly op: "remove"; readonly path: string }
  | { readonly op: "move"; readonly from: string; readonly path: string };

/**
 * A JSON Patch (RFC 6902) that turns the first document into exactly the second, order of lists included. Any tool
 * that knows the standard can apply it; the way back is the patch of the documents exchanged.
 *
 * @example
 * jsonPatch(asLeft, asFound); // [{ op: "replace", path: "/outputs/2/gainDb", value: -3 }]
 */
export function jsonPatch(before: Configuration, after: Configuration): readonly PatchOperation[] {
  return patchValue(asJson(before), asJson(after), CONFIGURATION_SHAPE, []);
}

function patchValue(
  before: Json,
  after: Json,
  shape: DocumentShape | undefined,
  place: DocumentPath,
): readonly PatchOperation[] {
  if (isDeepStrictEqual(before, after)) return [];
  if (isObject(before) && isObject(after)) return patchObject(before, after, shape, place);
  if (isList(before) && isList(after) && shape?.list !== undefined) {
    if (isKeyed(shape)) return patchKeyedList(before, after, shape, place);
    if (shape.list.key === "index" && before.length === after.length)
      return patchNumbers(before, after, place);
  }
  return [{ op: "replace", path: pointer(...place), value: after }];
}

function patchObject(
  before: JsonObject,
  after: JsonObject,
  shape: DocumentShape | undefined,
  place: DocumentPath,
): PatchOperation[] {
  const removed = Object.keys(before).filter((name) => !Object.hasOwn(after, name));
  const operations: PatchOperation[] = removed.map((name) => ({
    op: "remove",
    path: pointer(...place, name),
  }));
  for (const [name, value] of Object.entries(after)) {
    const here = [...place, name];
    if (!Object.hasOwn(before, name)) operations.push({ op: "add", path: pointer(...here), value });
    else operations.push(...patchValue(before[name]!, value, shape?.members.get(name), here));
  }
  return operations;
}

function patchNumbers(
  before: readonly Json[],
  after: readonly Json[],
  place: DocumentPath,
): PatchOperation[] {
  return after.flatMap((value, index) =>
    before[index] === value ? [] : [{ op: "replace" as const, path: pointer(...place, index), value }],
  );
}

/** First items go, from the end; then the others come or move to where they belong; then what is in them changes. */
function patchKeyedList(
  before: readonly Json[],
  after: readonly Json[],
  list: DocumentShape,
  place: DocumentPath,
): PatchOperation[] {
  const wanted = byKey(after, list);
  const had = byKey(before, list);
  const operations: PatchOperation[] = [];
  const current = before.map((item) => keyOf(item, list));
  for (let index = current.length - 1; index >= 0; index--) {
    if (wanted.has(current[index]!)) continue;
    operations.push({ op: "remove", path: pointer(...place, index) });
    current.splice(index, 1);
  }
  operations.push(...arrange(current, wanted, place));
  const inside = [...wanted].flatMap(([key, item], index) =>
    had.has(key) ? patchValue(had.get(key)!, item, list.list!.item, [...place, index]) : [],
  );
  return [...operations, ...inside];
}

/**
 * Brings the keys into the wanted order with as few moves as can be: a longest run that already stands in order stays,
 * every other item is put right behind the one that it shall follow. Changes `current`.
 */
function arrange(
  current: string[],
  wanted: ReadonlyMap<string, Json>,
  place: DocumentPath,
): PatchOperation[] {
  const order = [...wanted.keys()];
  const rank = new Map(order.map((key, index) => [key, index]));
  const run = longestRisingRun(current.map((key) => rank.get(key)!));
  const staying = new Set(run.map((index) => current[index]!));
  const operations: PatchOperation[] = [];
  for (const [index, key] of order.entries()) {
    if (staying.has(key)) continue;
    const from = current.indexOf(key);
    if (from >= 0) current.splice(from, 1);
    const to = index === 0 ? 0 : current.indexOf(order[index - 1]!) + 1;
    current.splice(to, 0, key);
    const path = pointer(...place, to);
    if (from < 0) operations.push({ op: "add", path, value: wanted.get(key)! });
    else operations.push({ op: "move", from: pointer(...place, from), path });
  }
  return operations;
}
