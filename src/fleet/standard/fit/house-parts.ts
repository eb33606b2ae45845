import { isDeepStrictEqual } from "node:util";
import { addressOf, type Configuration, valueAt } from "../../../model/index.ts";
import { writeAt } from "../write-at.ts";

/** What a standard may change of a screen, in pieces that stay or change as a whole: "presets/music", "operation/paging". */
const LISTS = ["sources", "channels", "equalizations", "presets", "automation"] as const;

interface Item {
  readonly id: string;
}

/** The parts in which two configurations of one screen differ, in the order of the signal flow. */
export function changedParts(screen: Configuration, target: Configuration): readonly string[] {
  const ofLists = LISTS.flatMap((list) => {
    const before = new Map((screen[list] as readonly Item[]).map((item) => [item.id, item]));
    const now = new Map((target[list] as readonly Item[]).map((item) => [item.id, item]));
    return [...new Set([...before.keys(), ...now.keys()])]
      .filter((id) => !isDeepStrictEqual(before.get(id), now.get(id)))
      .map((id) => `${list}/${id}`);
  });
  const names = new Set([...Object.keys(screen.operation), ...Object.keys(target.operation)]);
  const ofOperation = [...names]
    .filter((name) => {
      const path = ["operation", name];
      return !isDeepStrictEqual(valueAt(screen, path), valueAt(target, path));
    })
    .map((name) => `operation/${name}`);
  return [...ofLists, ...ofOperation];
}

/** The target with some parts as the screen has them. */
export function withPartsKept(
  screen: Configuration,
  target: Configuration,
  kept: ReadonlySet<string>,
): Configuration {
  if (kept.size === 0) return target;
  const lists = Object.fromEntries(
    LISTS.map((list) => {
      const before = screen[list] as readonly Item[];
      const now = new Map((target[list] as readonly Item[]).map((item) => [item.id, item]));
      const isKept = ({ id }: Item) => kept.has(`${list}/${id}`);
      const there = before.flatMap((item) => (isKept(item) ? [item] : (now.get(item.id) ?? [])));
      const own = new Set(before.map(({ id }) => id));
      const added = [...now.values()].filter((item) => !own.has(item.id) && !isKept(item));
      return [list, [...there, ...added]];
    }),
  );
  const names = new Set([...Object.keys(target.operation), ...Object.keys(screen.operation)]);
  const merged = { ...target, ...lists, operation: { ...target.operation } };
  for (const path of [...names].map((name) => ["operation", name])) {
    if (kept.has(addressOf(path))) writeAt(merged, path, valueAt(screen, path));
  }
  return merged;
}
