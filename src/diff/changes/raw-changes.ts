import { isDeepStrictEqual } from "node:util";
import { diff, type IChange } from "json-diff-ts";
import {
  CONFIGURATION_SHAPE,
  type DocumentShape,
  type ItemPath,
  type JsonObject,
  LIST_KEYS,
  valueAt,
} from "../../model/index.ts";
import type { Change } from "./change-set.ts";

/** The keys of lists as json-diff-ts takes them: "outputs.filters" → "id". Other lists go by index. */
const embeddedObjKeys = Object.fromEntries(
  Object.entries(LIST_KEYS)
    .filter(([, key]) => key === "id" || key === "channelId")
    .map(([list, key]) => [list.replaceAll("[]", ""), key]),
);

/** Every difference by identity, as json-diff-ts finds it in the members that differ. */
export function rawChanges(before: JsonObject, after: JsonObject): readonly Change[] {
  const differs = (name: string): boolean => !isDeepStrictEqual(before[name], after[name]);
  const changesIn = (found: readonly IChange[], shape: DocumentShape, path: ItemPath): readonly Change[] =>
    found.flatMap(({ type, key, oldValue, value, changes }, index): readonly Change[] => {
      const part = shape.list?.item ?? shape.members.get(key)!;
      const at = { path: [...path, String(key)], field: part.field };
      if (changes !== undefined && isOneByOne(changes, part)) return changesIn(changes, part, at.path);
      // A value of another type is taken out and added.
      const [previous, next] = [found[index - 1], found[index + 1]];
      if (previous?.key === key) return [];
      if (next?.key === key) return [{ kind: "changed", ...at, before: value, after: next.value }];
      if (type === "ADD") return [{ kind: "added", ...at, after: value }];
      if (type === "REMOVE") return [{ kind: "removed", ...at, before: value }];
      const [left, right] =
        changes === undefined ? [oldValue, value] : [valueAt(before, at.path), valueAt(after, at.path)];
      return [{ kind: "changed", ...at, before: left, after: right }];
    });
  const found = diff(only(before, differs), only(after, differs), { embeddedObjKeys });
  return changesIn(found, CONFIGURATION_SHAPE, []);
}

function only(document: JsonObject, isWanted: (name: string) => boolean): JsonObject {
  return Object.fromEntries(Object.entries(document).filter(([name]) => isWanted(name)));
}

/** Not where a list changed its length, or where a single place of it has no meaning. */
function isOneByOne(changes: readonly IChange[], { list }: DocumentShape): boolean {
  return list?.key !== "whole" && (list?.key !== "index" || changes.every(({ type }) => type === "UPDATE"));
}
