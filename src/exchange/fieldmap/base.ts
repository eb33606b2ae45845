import { itemKey, type KeyedItem, LIST_KEYS } from "../../model/index.ts";
import type { Draft } from "./draft.ts";

/**
 * Lays a configuration under a draft: it gives the fields for which the map has no rule. A field that the map gives is
 * never taken from below, also where the export has none: a high-pass that is off stays off. Items are matched by key;
 * items that only the base has stay away from lists that the map gives.
 */
export function layUnder(draft: Draft, base: unknown, bound: ReadonlySet<string>): Draft {
  const covered = new Set<string>();
  for (const path of bound) {
    for (let at = path; at !== ""; at = at.slice(0, Math.max(0, at.search(/(?:\.|\[\])[^.[\]]*$/))))
      covered.add(at);
  }
  return mergeObject(draft, base as Draft, "", { bound, covered });
}

/** Objects of several kinds, each with members of its own: whole from the map or whole from below, never mixed. */
const OF_SEVERAL_KINDS = /(?:^|\.)(?:filters\[\]|parametric\[\]|feeds|trigger|action)$/;

interface Coverage {
  readonly bound: ReadonlySet<string>;
  /** The bound paths and everything around them. */
  readonly covered: ReadonlySet<string>;
}

function mergeObject(draft: Draft, base: Draft, path: string, coverage: Coverage): Draft {
  if (OF_SEVERAL_KINDS.test(path) && draft.kind !== undefined) return draft;
  const merged: Draft = { ...draft };
  for (const [name, below] of Object.entries(base)) {
    const inner = path === "" ? name : `${path}.${name}`;
    const given = draft[name];
    if (given === undefined) {
      if (!coverage.covered.has(inner) && !coverage.bound.has(inner)) merged[name] = below;
    } else if (Array.isArray(given) && Array.isArray(below) && LIST_KEYS[inner] !== undefined) {
      merged[name] = mergeList(given as Draft[], below as Draft[], inner, coverage);
    } else if (isDraft(given) && isDraft(below)) merged[name] = mergeObject(given, below, inner, coverage);
  }
  return merged;
}

function mergeList(
  given: readonly Draft[],
  below: readonly Draft[],
  path: string,
  coverage: Coverage,
): Draft[] {
  const known = new Map(below.map((item) => [itemKey(item as KeyedItem), item]));
  return given.map((item) => {
    const under = isDraft(item) ? known.get(itemKey(item as KeyedItem)) : undefined;
    return under === undefined ? item : mergeObject(item, under, `${path}[]`, coverage);
  });
}

function isDraft(value: unknown): value is Draft {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
