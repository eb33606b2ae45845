import type { FoundItem, FoundList } from "../interpretation.ts";
import type { ComparedList } from "./item-changes.ts";
import { KeyedDocument } from "./keyed-document.ts";
import type { ExportState } from "./planned-change.ts";

/** What a new item is copied from, and beside which items it stands. */
export interface Template {
  readonly item: FoundItem;
  readonly after: string | undefined;
  readonly before: string | undefined;
}

/** Finds the item of an export that a new one should be written like. */
export class TemplateFinder {
  readonly #lists: readonly FoundList[];
  /** The export as it reads: shows which fields its items have. */
  readonly #document: KeyedDocument;

  constructor({ interpretation }: ExportState) {
    this.#lists = interpretation.lists;
    this.#document = new KeyedDocument(interpretation.draft);
  }

  /**
   * Where an item goes in the place of another, it is that one by another key: what the map does not know of it goes on.
   * Else it is copied from its nearest neighbour with the same fields, else from any neighbour, else from another list.
   */
  templateFor(
    key: string,
    wanted: unknown,
    { list, wanted: keys, held }: ComparedList,
  ): Template | undefined {
    const at = keys.indexOf(key);
    const ahead = keys.slice(0, at).findLast((other) => held.has(other));
    const behind = keys.slice(at + 1).find((other) => held.has(other));
    const place = { after: held.get(ahead ?? "")?.pointer, before: held.get(behind ?? "")?.pointer };
    const replaced = replacedItem(key, keys, [...held.keys()]);
    const old = replaced === undefined ? undefined : held.get(replaced);
    if (old !== undefined) return { item: old, after: old.pointer, before: undefined };
    const near = nearestFirst(keys, at).flatMap((other) => held.get(other) ?? []);
    const item = this.#likest(wanted, [...near, ...held.values()]) ?? this.#fromElsewhere(wanted, list);
    return item === undefined ? undefined : { item, ...place };
  }

  #fromElsewhere(wanted: unknown, { rule }: FoundList): FoundItem | undefined {
    const others = this.#lists.filter((list) => list.rule === rule).flatMap(({ items }) => items);
    return this.#likest(wanted, others);
  }

  #likest(wanted: unknown, candidates: readonly FoundItem[]): FoundItem | undefined {
    const shape = shapeOf(wanted);
    return candidates.find(({ path }) => shapeOf(this.#document.at(path)) === shape) ?? candidates[0];
  }
}

/** The item that goes where another comes: both follow the same item that stays, as the same one in number. */
function replacedItem(key: string, wanted: readonly string[], held: readonly string[]): string | undefined {
  const [coming, going] = [newOnes(wanted, held), newOnes(held, wanted)];
  const ahead = coming.get(key);
  const place = [...coming].filter(([, other]) => other === ahead).findIndex(([other]) => other === key);
  return [...going].filter(([, other]) => other === ahead)[place]?.[0];
}

/** Keys that the other list lacks, each with the key ahead of it that both have. */
function newOnes(
  keys: readonly string[],
  others: readonly string[],
): ReadonlyMap<string, string | undefined> {
  const known = new Set(others);
  const found = new Map<string, string | undefined>();
  let ahead: string | undefined;
  for (const key of keys) {
    if (known.has(key)) ahead = key;
    else found.set(key, ahead);
  }
  return found;
}

function nearestFirst(keys: readonly string[], at: number): readonly string[] {
  return [...keys.keys()].sort((a, b) => Math.abs(a - at) - Math.abs(b - at) || a - b).map((i) => keys[i]!);
}

/** The fields that an item has, with its own kind, but without lists. */
function shapeOf(value: unknown, at = ""): string {
  if (typeof value !== "object" || value === null)
    return at.endsWith("kind") ? `${at}=${String(value)};` : `${at};`;
  return Object.entries(value)
    .filter(([, member]) => !Array.isArray(member))
    .map(([name, member]) => shapeOf(member, `${at}.${name}`))
    .sort()
    .join("");
}
