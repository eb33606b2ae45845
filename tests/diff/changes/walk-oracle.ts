import type { Json } from "../../../src/model/index.ts";

/** The keys of lists, written down here once more so that the oracle shares nothing with what it judges. */
const keyIn = (item: Json): string | undefined => {
  if (typeof item !== "object" || item === null || Array.isArray(item)) return undefined;
  const { id, channelId } = item as { readonly id?: Json; readonly channelId?: Json };
  return typeof id === "string" ? id : typeof channelId === "string" ? channelId : undefined;
};

/**
 * The differences of two documents by the plainest walk: one line for each, "path: before -> after". Lists of numbers
 * of one length go by index; of several lengths, and FIR taps, as a whole.
 */
export function walk(
  before: Json | undefined,
  after: Json | undefined,
  path: readonly string[] = [],
): string[] {
  if (
    before === undefined ||
    after === undefined ||
    typeof before !== "object" ||
    typeof after !== "object"
  ) {
    return before === after ? [] : [line(path, before, after)];
  }
  if (Array.isArray(before) && Array.isArray(after)) return walkLists(before, after, path);
  const [left, right] = [before, after] as Record<string, Json>[];
  const names = new Set([...Object.keys(left!), ...Object.keys(right!)]);
  return [...names].flatMap((name) => walk(left![name], right![name], [...path, name]));
}

function walkLists(before: readonly Json[], after: readonly Json[], path: readonly string[]): string[] {
  const keyed = [...before, ...after].some((item) => keyIn(item) !== undefined);
  if (keyed) {
    const [left, right] = [before, after].map((list) => new Map(list.map((item) => [keyIn(item)!, item])));
    const keys = new Set([...left!.keys(), ...right!.keys()]);
    return [...keys].flatMap((key) => walk(left!.get(key), right!.get(key), [...path, key]));
  }
  if (before.length !== after.length || path.at(-1) === "taps") {
    return JSON.stringify(before) === JSON.stringify(after) ? [] : [line(path, before, after)];
  }
  return before.flatMap((item, index) => walk(item, after[index], [...path, String(index)]));
}

export function line(path: readonly string[], before: Json | undefined, after: Json | undefined): string {
  return `${JSON.stringify(path)}: ${JSON.stringify(before)} -> ${JSON.stringify(after)}`;
}
