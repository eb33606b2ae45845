import { pointer } from "../../findings/index.ts";
import type { ShapeProblem } from "./shape-problem.ts";

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
  const sourceChannels = new Map<string, string>();
  const visit = (value: unknown, path: readonly (string | number)[]): void => {
    if (Array.isArray(value)) {
      const shared = path.length === 3 && path[0] === "sources" && path[2] === "channels";
      found.push(...itemsTwice(value, path, keyNames, shared ? sourceChannels : new Map()));
      value.forEach((item, index) => {
        visit(item, [...path, index]);
      });
    } else if (typeof value === "object" && value !== null) {
      for (const [name, item] of Object.entries(value)) {
        if (typeof item === "object") visit(item, [...path, name]);
      }
    }
  };
  visit(document, []);
  return found;
}

function itemsTwice(
  list: readonly unknown[],
  path: readonly (string | number)[],
  keyNames: readonly (keyof KeyedItem)[],
  seen: Map<string, string>,
): ShapeProblem[] {
  return list.flatMap((item, index) => {
    if (typeof item !== "object" || item === null) return [];
    const name = keyNames.find((candidate) => candidate in item);
    const key = name === undefined ? undefined : (item as KeyedItem)[name];
    if (name === undefined || typeof key !== "string") return [];
    const first = seen.get(key);
    if (first !== undefined) {
      return {
        fault: "duplicate-id" as const,
        pointer: pointer(...path, index, name),
        words: `The id '${key}' is taken already by ${first}.`,
      };
    }
    seen.set(key, pointer(...path, index));
    return [];
  });
}
