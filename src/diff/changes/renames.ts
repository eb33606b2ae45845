import { canonicalText } from "../../base/canonical/index.ts";
import {
  CONFIGURATION_SHAPE,
  type DocumentShape,
  type ItemPath,
  isKeyed,
  isList,
  isObject,
  type Json,
  type JsonObject,
  LIST_KEYS,
} from "../../model/index.ts";
import type { KeyPair, Rename } from "./change-set.ts";
import { byKey, keyOf } from "./identity.ts";
import { pairByFeed } from "./output-pairs.ts";
import { renamed } from "./renaming.ts";

/** One list that both documents have. */
interface ListPair {
  readonly path: ItemPath;
  readonly shape: DocumentShape;
  readonly before: readonly Json[];
  readonly after: readonly Json[];
}

/**
 * Items that only have another key. Lists are looked through in an order in which each comes after those that its
 * items refer to, so that a reference that followed a rename is no difference any more when its own list is reached.
 */
export function renamesBetween(before: JsonObject, after: JsonObject): readonly Rename[] {
  const found: Rename[] = [];
  let current = before;
  for (const [field, key] of Object.entries(LIST_KEYS)) {
    if (key !== "id") continue;
    const here = listPairs(field, current, after).flatMap(renamesInList);
    if (here.length === 0) continue;
    found.push(...here);
    current = renamed(current, here, "forward");
  }
  return found;
}

/** Every list of one name that both documents have, inside items of equal keys. */
function listPairs(field: string, before: JsonObject, after: JsonObject): readonly ListPair[] {
  const down = (
    parts: readonly string[],
    a: Json,
    b: Json,
    shape: DocumentShape,
    path: ItemPath,
  ): ListPair[] => {
    const [part, ...rest] = parts;
    const name = part!.replace("[]", "");
    if (!isObject(a) || !isObject(b)) return [];
    const [left, right, member] = [a[name], b[name], shape.members.get(name)!];
    if (left === undefined || right === undefined || left === right) return [];
    const here = [...path, name];
    if (rest.length === 0) {
      return isList(left) && isList(right) ? [{ path: here, shape: member, before: left, after: right }] : [];
    }
    if (!isList(left) || !isList(right)) return down(rest, left, right, member, here);
    const others = byKey(right, member);
    return left.flatMap((item) => {
      const key = keyOf(item, member);
      const other = others.get(key);
      return other === undefined ? [] : down(rest, item, other, member.list!.item, [...here, key]);
    });
  };
  return down(field.split("."), before, after, CONFIGURATION_SHAPE, []);
}

function renamesInList({ path, shape, before, after }: ListPair): readonly Rename[] {
  const left = byKey(before, shape);
  const right = byKey(after, shape);
  const fed = shape.field === "outputs" ? pairByFeed(left, right) : [];
  const pairs = [...fed, ...pairByContent(left, right, shape, fed)];
  return pairs.map((pair) => ({ path, field: shape.field, ...pair }));
}

/** Pairs items without a namesake that differ in nothing but keys. Of several that are alike the first go together. */
function pairByContent(
  left: ReadonlyMap<string, JsonObject>,
  right: ReadonlyMap<string, JsonObject>,
  shape: DocumentShape,
  paired: readonly KeyPair[],
): readonly KeyPair[] {
  const takenLeft = new Set(paired.map(({ before }) => before));
  const takenRight = new Set(paired.map(({ after }) => after));
  const lost = [...left].filter(([key]) => !right.has(key) && !takenLeft.has(key));
  const fresh = [...right].filter(([key]) => !left.has(key) && !takenRight.has(key));
  if (lost.length === 0 || fresh.length === 0) return [];
  const open = groupByContent(fresh, shape);
  return lost.flatMap(([before, item]) => {
    const after = open.get(contentOf(item, shape.list!.item))?.shift();
    return after === undefined ? [] : [{ before, after, because: "same-content" as const }];
  });
}

function groupByContent(
  items: readonly (readonly [string, JsonObject])[],
  shape: DocumentShape,
): Map<string, string[]> {
  const groups = new Map<string, string[]>();
  for (const [key, item] of items) {
    const content = contentOf(item, shape.list!.item);
    groups.set(content, [...(groups.get(content) ?? []), key]);
  }
  return groups;
}

/** The canonical text of an item without its own key and those of the items inside it. */
function contentOf(item: Json, shape: DocumentShape): string {
  return canonicalText(withoutIds(item, shape));
}

function withoutIds(value: Json, shape: DocumentShape): Json {
  if (isList(value)) {
    return shape.list === undefined || !isKeyed(shape)
      ? value
      : value.map((item) => withoutIds(item, shape.list!.item));
  }
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([name]) => name !== "id")
      .map(([name, child]) => [name, withoutIds(child, shape.members.get(name) ?? shape)]),
  );
}
