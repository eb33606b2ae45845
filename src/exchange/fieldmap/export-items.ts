import type { ItemPath, ListRule, RowMatch } from "../../model/index.ts";
import { type Converter, converterOf } from "./conversions/index.ts";
import { type Draft, lookUp } from "./draft.ts";
import { fieldType } from "./field-type.ts";
import type { LoadedMap } from "./load-map.ts";
import { PlaceCount } from "./place-count.ts";
import { type ExportTree, pointerPart, type TreeValue } from "./tree.ts";

/** A part of the export that becomes an item of a list, or the whole. */
export interface ExportItem {
  readonly pointer: string;
  readonly value: TreeValue;
  readonly location: readonly (string | number)[];
}

/** Where in both documents the rules are applied. */
export interface Scope {
  readonly item: ExportItem;
  readonly draft: Draft;
  /** JSON Pointer of the draft. */
  readonly at: string;
  readonly path: ItemPath;
  /** "outputs[].filters[]." */
  readonly prefix: string;
  /** The whole draft. */
  readonly known: Draft;
  readonly parent: Scope | undefined;
}

type Found = readonly ExportItem[] | ReadonlyMap<string, readonly ExportItem[]>;

/** Finds the items of lists. What is looked for in the whole export is looked for once. */
export class ItemFinder {
  readonly #tree: ExportTree;
  readonly #loaded: LoadedMap;
  readonly #cache = new Map<ListRule, Found>();
  readonly #places = new PlaceCount();

  constructor(tree: ExportTree, loaded: LoadedMap) {
    this.#tree = tree;
    this.#loaded = loaded;
  }

  /** The items of a list around which `scope` stands. */
  itemsOf(rule: ListRule, scope: Scope): readonly ExportItem[] {
    if (rule.within !== "root" && rule.where === undefined) return this.found(rule.each, scope.item);
    const root = { pointer: "", value: this.#tree.root, location: [] };
    if (rule.where === undefined)
      return this.#cached(rule, () => this.found(rule.each, root)) as readonly ExportItem[];
    if (rule.within !== "root")
      return this.#indexed(rule, this.found(rule.each, scope.item), scope).get(tuple(rule, scope)) ?? [];
    const index = this.#cached(rule, () => this.#indexed(rule, this.found(rule.each, root), scope));
    return (index as ReadonlyMap<string, readonly ExportItem[]>).get(tuple(rule, scope)) ?? [];
  }

  #cached<T extends readonly ExportItem[] | ReadonlyMap<string, readonly ExportItem[]>>(
    rule: ListRule,
    make: () => T,
  ): T {
    const known = this.#cache.get(rule) as T | undefined;
    const found = known ?? make();
    if (known === undefined) this.#cache.set(rule, found);
    return found;
  }

  /** Items by the values that say to which item around them they belong. */
  #indexed(
    rule: ListRule,
    items: readonly ExportItem[],
    scope: Scope,
  ): ReadonlyMap<string, readonly ExportItem[]> {
    const index = new Map<string, ExportItem[]>();
    const matches = rule.where!.map((match) => {
      const prefix = ancestorOf(scope, match.ancestor ?? 1)?.prefix ?? "";
      return { at: match.at, converter: matchConverter(match, prefix, this.#loaded) };
    });
    for (const item of items) {
      const values = matches.map(({ at, converter }) => {
        const leaf = this.#tree.leaves.get(item.pointer + at);
        if (leaf === undefined) return undefined;
        return [leaf, converter.read(leaf.raw)] as const;
      });
      if (values.some((value) => value?.[1] === undefined)) continue;
      const key = JSON.stringify(values.map((value) => value![1]));
      const known = index.get(key);
      if (known === undefined) index.set(key, [item]);
      else known.push(item);
    }
    return index;
  }

  /** What a query finds inside an item. */
  found(each: string, item: ExportItem): readonly ExportItem[] {
    if (typeof item.value !== "object" || item.value === null) return [];
    const nodes = this.#places.nodes(this.#loaded.query(each), item.value);
    const found = nodes.map(({ value, location }) => ({
      value: value as TreeValue,
      pointer: item.pointer + location.map(pointerPart).join(""),
      location: [...item.location, ...location],
    }));
    return inOrderOfNumbers(found);
  }
}

/** Items named 01 to 10 in the order of their numbers; members of an object come in another one (10 ahead of 01). */
function inOrderOfNumbers(items: readonly ExportItem[]): readonly ExportItem[] {
  const names = items.map(({ location }) => location.at(-1));
  const isMixed = names.some((name) => typeof name === "string" && /^0\d/.test(name));
  if (!isMixed || !names.every((name) => typeof name === "string" && /^\d{1,9}$/.test(name))) return items;
  return items
    .map((item, i) => ({ item, number: Number(names[i]) }))
    .sort((a, b) => a.number - b.number)
    .map(({ item }) => item);
}

/** The converter of a value that says to which item a row belongs; `prefix` is that item's. */
export function matchConverter({ as, field }: RowMatch, prefix: string, { map }: LoadedMap): Converter {
  return converterOf(as, { type: fieldType(prefix + field), decimal: map.decimal ?? ".", known: {} });
}

function ancestorOf(scope: Scope, count: number): Scope | undefined {
  let found: Scope | undefined = scope;
  for (let i = 1; i < count; i += 1) found = found?.parent;
  return found;
}

function tuple(rule: ListRule, scope: Scope): string {
  return JSON.stringify(
    rule.where!.map(({ ancestor, field }) => {
      const draft = ancestorOf(scope, ancestor ?? 1)?.draft;
      return draft === undefined ? null : (lookUp(draft, field) ?? null);
    }),
  );
}
