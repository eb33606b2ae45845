import { isDeepStrictEqual } from "node:util";
import {
  type DocumentShape,
  type ItemPath,
  isKeyed,
  isList,
  isObject,
  type Json,
} from "../../model/index.ts";
import type { ListOrder } from "./change-set.ts";
import { byKey, keyOf } from "./identity.ts";

/** The order of the items of every keyed list that both have and whose keys do not follow each other alike. */
export function listOrders(
  before: Json,
  after: Json,
  shape: DocumentShape,
  path: ItemPath,
): readonly ListOrder[] {
  if (isList(before) && isList(after)) return isKeyed(shape) ? ordersOfList(before, after, shape, path) : [];
  if (!isObject(before) || !isObject(after)) return [];
  return Object.keys(before).flatMap((name) => {
    const [left, right, member] = [before[name]!, after[name], shape.members.get(name)];
    if (typeof left !== "object" || right === undefined || left === right || member === undefined) return [];
    return listOrders(left, right, member, [...path, name]);
  });
}

function ordersOfList(
  before: readonly Json[],
  after: readonly Json[],
  shape: DocumentShape,
  path: ItemPath,
): readonly ListOrder[] {
  const left = before.map((item) => keyOf(item, shape));
  const right = after.map((item) => keyOf(item, shape));
  const others = byKey(after, shape);
  const inside = before.flatMap((item, index) => {
    const other = others.get(left[index]!);
    return other === undefined ? [] : listOrders(item, other, shape.list!.item, [...path, left[index]!]);
  });
  return isDeepStrictEqual(left, right)
    ? inside
    : [{ path, field: shape.field, before: left, after: right }, ...inside];
}
