import {
  CONFIGURATION_SHAPE,
  type DocumentShape,
  type ItemPath,
  isKeyed,
  isList,
  isObject,
  type Json,
  type JsonObject,
} from "../../model/index.ts";
import type { Rename } from "./change-set.ts";
import { keyOf } from "./identity.ts";

type Direction = "forward" | "backward";

/** Old names to new ones, by the list that they stand in. */
interface Names {
  readonly direction: Direction;
  /** By the list's place. */
  readonly inList: ReadonlyMap<string, ReadonlyMap<string, string>>;
  /** By the list's name, for references into lists whose keys are unique in the whole configuration. */
  readonly anywhere: ReadonlyMap<string, ReadonlyMap<string, string>>;
}

/** A place by the names before and after the renaming. */
interface At {
  readonly from: ItemPath;
  readonly to: ItemPath;
}

/**
 * A configuration with other keys, all references following: from the first document's keys to the second's, or
 * backward. All renames happen at once, so two items can exchange their keys.
 */
export function renamed(document: JsonObject, renames: readonly Rename[], direction: Direction): JsonObject {
  if (renames.length === 0) return document;
  return rewrite(
    document,
    CONFIGURATION_SHAPE,
    { from: [], to: [] },
    namesFrom(renames, direction),
  ) as JsonObject;
}

function namesFrom(renames: readonly Rename[], direction: Direction): Names {
  const inList = new Map<string, Map<string, string>>();
  const anywhere = new Map<string, Map<string, string>>();
  for (const { path, field, before, after } of renames) {
    const [from, to] = direction === "forward" ? [before, after] : [after, before];
    for (const [map, name] of [
      [inList, placeName(path)],
      [anywhere, field],
    ] as const) {
      map.set(name, (map.get(name) ?? new Map<string, string>()).set(from, to));
    }
  }
  return { direction, inList, anywhere };
}

function placeName(path: ItemPath): string {
  return JSON.stringify(path);
}

function rewrite(value: Json, shape: DocumentShape, at: At, names: Names): Json {
  if (isList(value)) return shape.list === undefined ? value : rewriteList(value, shape, at, names);
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, child]) => {
      const member = shape.members.get(name);
      if (member === undefined) return [name, child];
      const target = member.leaf?.refersTo;
      if (target !== undefined) return [name, newReference(child, target, value, names)];
      return [name, rewrite(child, member, { from: [...at.from, name], to: [...at.to, name] }, names)];
    }),
  );
}

function rewriteList(items: readonly Json[], shape: DocumentShape, at: At, names: Names): Json {
  if (!isKeyed(shape)) return items;
  // A rename says its list's place in the second document's names.
  const own = names.inList.get(placeName(names.direction === "forward" ? at.to : at.from));
  return items.map((item) => {
    const from = keyOf(item, shape);
    const to = own?.get(from) ?? (shape.list!.key === "channelId" ? newName("channels", from, names) : from);
    const inside = { from: [...at.from, from], to: [...at.to, to] };
    const rewritten = rewrite(item, shape.list!.item, inside, names) as JsonObject;
    return from === to || shape.list!.key !== "id" ? rewritten : { ...rewritten, id: to };
  });
}

function newName(list: string, key: string, names: Names): string {
  return names.anywhere.get(list)?.get(key) ?? key;
}

/** The keys of ways are unique only inside their loudspeaker, which the same object names. */
function newReference(key: Json, list: string, beside: JsonObject, names: Names): Json {
  if (typeof key !== "string") return key;
  if (list !== "loudspeakers[].ways") return newName(list, key, names);
  const loudspeakerId = String(beside.loudspeakerId);
  const owner = names.direction === "forward" ? newName("loudspeakers", loudspeakerId, names) : loudspeakerId;
  return names.inList.get(placeName(["loudspeakers", owner, "ways"]))?.get(key) ?? key;
}
