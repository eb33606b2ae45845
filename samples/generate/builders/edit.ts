import { itemKey, type KeyedItem } from "../../../src/model/index.ts";

/** One change of a document, placed by names and keys: ["outputs", "left-hf", "highPass", "frequencyHz"]. */
export interface Edit {
  /** What somebody did, in words. */
  readonly what: string;
  /** Names of members, keys of list items, indices of bands. */
  readonly at: readonly (string | number)[];
  readonly from: number | string | boolean;
  readonly to: number | string | boolean;
}

/**
 * A copy of a document with every edit made.
 *
 * @throws if a place does not exist or does not hold the value that the edit starts from
 */
export function edited<T extends object>(document: T, edits: readonly Edit[]): T {
  const copy = structuredClone(document);
  for (const { what, at, from, to } of edits) {
    const parent = at.slice(0, -1).reduce<unknown>(childOf, copy) as Record<string | number, unknown>;
    const last = at.at(-1)!;
    if (parent?.[last] !== from)
      throw new Error(`${what}: ${at.join("/")} holds ${parent?.[last]}, not ${from}`);
    parent[last] = to;
  }
  return copy;
}

function childOf(node: unknown, key: string | number): unknown {
  if (Array.isArray(node) && typeof key === "string") {
    return (node as KeyedItem[]).find((item) => itemKey(item) === key);
  }
  return (node as Record<string | number, unknown> | undefined)?.[key];
}
