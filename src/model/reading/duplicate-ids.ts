import type { ShapeProblem } from "./shape-problem.ts";
import { type Trail, trailPointer } from "./trail.ts";

/** An item of a list, as far as its key goes. */
interface KeyedItem {
  readonly id?: unknown;
  readonly channelId?: unknown;
}

/**
 * Items of one list with the same key: the id; in a configuration also the channelId of lists that hold one item for
 * each program channel. Source channels are looked up without naming their source, so their ids are
 * unique in the whole configuration.
 */
export function duplicateIds(document: unknown, kind: string): ShapeProblem[] {
  const keyNames: readonly (keyof KeyedItem)[] =
    kind === "boothkeep.configuration" ? ["id", "channelId"] : ["id"];
  const found: ShapeProblem[] = [];
  const sourceChannels: Seen = new Map();
  const visit = (value: object, trail: Trail | undefined, shared: boolean): void => {
    if (Array.isArray(value)) {
      const seen: Seen = shared ? sourceChannels : new Map();
      for (let index = 0; index < value.length; index += 1) {
        const item: unknown = value[index];
        if (typeof item !== "object" || item === null) continue;
        const at: Trail = { parent: trail, key: index };
        const twice = keyTwice(item, at, keyNames, seen);
        if (twice !== undefined) found.push(twice);
        visit(item, at, false);
      }
    } else {
      for (const [name, item] of Object.entries(value)) {
        if (typeof item !== "object" || item === null) continue;
        visit(item, { parent: trail, key: name }, name === "channels" && isSource(trail));
      }
    }
  };
  if (typeof document === "object" && document !== null) visit(document, undefined, false);
  return found;
}

/** Where each key was met first. */
type Seen = Map<string, Trail>;

/** Whether a trail leads to an item of the top list of sources. */
function isSource(trail: Trail | undefined): boolean {
  return trail?.parent?.key === "sources" && trail.parent.parent === undefined;
}

function keyTwice(
  item: KeyedItem,
  at: Trail,
  keyNames: readonly (keyof KeyedItem)[],
  seen: Seen,
): ShapeProblem | undefined {
  const name = keyNames.find((candidate) => candidate in item);
  const key = name === undefined ? undefined : item[name];
  if (name === undefined || typeof key !== "string") return undefined;
  const first = seen.get(key);
  if (first === undefined) {
    seen.set(key, at);
    return undefined;
  }
  return {
    fault: "duplicate-id",
    pointer: trailPointer(at, name),
    words: `The id '${key}' is taken already by ${trailPointer(first)}.`,
  };
}
