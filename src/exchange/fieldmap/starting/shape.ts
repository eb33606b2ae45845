import { isObject, type Leaf, pointerPart, type TreeObject, type TreeValue } from "../tree.ts";
import { meaningsOf } from "./known-words.ts";

/** How a part of an export is built, over all its places. */
export type Shape = ScalarShape | RecordShape | ListShape;

export interface ScalarShape {
  readonly kind: "scalar";
  readonly leaves: readonly Leaf[];
}

export interface RecordShape {
  readonly kind: "record";
  readonly members: ReadonlyMap<string, Shape>;
  /** How many of them there are. */
  readonly count: number;
}

/** Things of one kind: in a list, or by names in an object. */
export interface ListShape {
  readonly kind: "list";
  readonly by: "place" | "name";
  readonly item: Shape;
  readonly names: readonly string[];
  /** Pointers of the items. */
  readonly items: readonly string[];
}

interface Place {
  readonly pointer: string;
  readonly value: TreeValue;
}

/** The shape of an export's tree. */
export function shapeOf(root: TreeValue, leaves: ReadonlyMap<string, Leaf>): Shape | undefined {
  return shapeOfAll([{ pointer: "", value: root }], leaves);
}

/** Lists of this many numbers or fewer, all of one length, are taken for members: length, width, height. */
const MOST_MEMBERS = 4;

/** Longest row whose places each mean something of their own. */
const LONGEST_ROW = 40;

/** Whether lists are rows of a table without names: each place holds one sort of value, and not all the same. */
function areRows(lists: readonly Place[], length: number): boolean {
  if (lists.length < 2 || length < 2 || length > LONGEST_ROW) return false;
  const rows = lists.map(({ value }) => value as readonly TreeValue[]);
  const sorts = Array.from({ length }, (_none, i) => {
    const own = new Set(rows.map((row) => sortOf(row[i])).filter((sort) => sort !== "nothing"));
    return own.size > 1 ? undefined : ([...own][0] ?? "nothing");
  });
  return sorts.every((sort) => sort !== undefined) && new Set(sorts).size > 1;
}

function sortOf(value: TreeValue | undefined): string {
  if (value === null || value === undefined) return "nothing";
  return Array.isArray(value) ? "list" : typeof value;
}

function shapeOfAll(places: readonly Place[], leaves: ReadonlyMap<string, Leaf>): Shape | undefined {
  const objects = places.filter(({ value }) => isObject(value));
  const lists = places.filter(({ value }) => Array.isArray(value));
  if (objects.length > 0 && objects.length >= lists.length) return objectShape(objects, leaves);
  if (lists.length > 0) return listShape(lists, leaves);
  const found = places.flatMap(({ pointer }) => leaves.get(pointer) ?? []);
  return found.length === 0 ? undefined : { kind: "scalar", leaves: found };
}

function objectShape(objects: readonly Place[], leaves: ReadonlyMap<string, Leaf>): Shape | undefined {
  const members = new Map<string, Place[]>();
  for (const { pointer, value } of objects) {
    for (const [name, member] of Object.entries(value as TreeObject)) {
      const known = members.get(name) ?? [];
      members.set(name, known);
      known.push({ pointer: pointer + pointerPart(name), value: member });
    }
  }
  const all = [...members.values()].flat();
  if (isByName(members, objects.length)) {
    const item = shapeOfAll(all, leaves);
    const names = [...members.keys()];
    const items = all.map(({ pointer }) => pointer);
    return item === undefined ? undefined : { kind: "list", by: "name", item, names, items };
  }
  return recordOf(members, objects.length, leaves);
}

function recordOf(
  members: ReadonlyMap<string, readonly Place[]>,
  count: number,
  leaves: ReadonlyMap<string, Leaf>,
): RecordShape {
  const shapes = new Map<string, Shape>();
  for (const [name, places] of members) {
    const shape = shapeOfAll(places, leaves);
    if (shape !== undefined) shapes.set(name, shape);
  }
  return { kind: "record", members: shapes, count };
}

function listShape(lists: readonly Place[], leaves: ReadonlyMap<string, Leaf>): Shape | undefined {
  const items = lists.flatMap(({ pointer, value }) =>
    (value as readonly TreeValue[]).map((item, i) => ({ pointer: `${pointer}/${i}`, value: item, at: i })),
  );
  const lengths = new Set(lists.map(({ value }) => (value as readonly TreeValue[]).length));
  const [length = 0] = lengths;
  const isPlain = items.every(({ value }) => typeof value !== "object" || value === null);
  if (lengths.size === 1 && ((isPlain && length > 1 && length <= MOST_MEMBERS) || areRows(lists, length))) {
    const members = new Map<string, Place[]>();
    for (const item of items) members.set(String(item.at), [...(members.get(String(item.at)) ?? []), item]);
    return recordOf(members, lists.length, leaves);
  }
  const item = shapeOfAll(items, leaves);
  if (item === undefined) return undefined;
  return { kind: "list", by: "place", item, names: [], items: items.map(({ pointer }) => pointer) };
}

/** Lists that stand beside each other by the names of program channels. */
function areListsOfChannels(members: ReadonlyMap<string, readonly Place[]>): boolean {
  const names = [...members.keys()];
  const areLists = [...members.values()].flat().every(({ value }) => Array.isArray(value));
  return areLists && names.length >= 2 && meaningsOf("channels[].label", names) !== undefined;
}

/** Whether members are things of one kind that have names: all are objects, and built alike. */
function isByName(members: ReadonlyMap<string, readonly Place[]>, count: number): boolean {
  const all = [...members.values()].flat();
  if (areListsOfChannels(members)) return true;
  if (all.length < 2 || all.some(({ value }) => !isObject(value))) return false;
  // Where every object has the very same members, these are its parts rather than things with names of their own.
  if (count > 2 && [...members.values()].every((places) => places.length === count) && members.size < 4)
    return false;
  const names = all.map(({ value }) => Object.keys(value as TreeObject));
  const union = new Set(names.flat());
  const isNumbered = [...members.keys()].every((name) => /^\d+$/.test(name));
  const common = [...union].filter((name) => names.filter((own) => own.includes(name)).length > 1).length;
  if (common < union.size / 2) return false;
  const share = names.reduce((sum, own) => sum + own.length, 0) / names.length / Math.max(1, union.size);
  return share >= (isNumbered ? 0.25 : 0.5);
}

/** Records with one member that is a record too: perhaps one thing by its name, where others could stand. */
export function singlesIn(root: Shape, at = ""): readonly (readonly [pointer: string, shape: ListShape])[] {
  if (root.kind !== "record" || root.count !== 1) return [];
  return [...root.members].flatMap(([name, member]) => {
    const place = at + pointerPart(name);
    if (member.kind !== "record") return [];
    const [[only, item] = []] = member.members;
    if (member.members.size !== 1 || only === undefined || item?.kind !== "record")
      return singlesIn(member, place);
    const items = [place + pointerPart(only)];
    return [[place, { kind: "list", by: "name", item, names: [only], items }]];
  });
}

/** Values of a record that stand for themselves, at their places in it. */
export function scalarsIn(
  shape: Shape,
  at = "",
): readonly (readonly [pointer: string, shape: ScalarShape])[] {
  if (shape.kind === "scalar") return [[at, shape]];
  if (shape.kind === "list") return [];
  return [...shape.members].flatMap(([name, member]) => scalarsIn(member, at + pointerPart(name)));
}

/** Lists of a record, at their places in it. */
export function listsIn(shape: Shape, at = ""): readonly (readonly [pointer: string, shape: ListShape])[] {
  if (shape.kind === "scalar") return [];
  if (shape.kind === "list") return [[at, shape]];
  return [...shape.members].flatMap(([name, member]) => listsIn(member, at + pointerPart(name)));
}
