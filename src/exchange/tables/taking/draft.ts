import type { Configuration } from "../../../model/index.ts";
import { type Item, itemsIn, type Level, levelsOf } from "../rows.ts";
import type { TablePlace } from "./problem.ts";

/** A row of a table in the draft. */
export interface DraftRow {
  readonly place: TablePlace;
  /** Path of the list that the item is in. */
  readonly list: string;
}

/** A key that no item has. */
export interface UnknownKey {
  readonly level: Level;
  readonly key: string;
  /** Keys that stand beside. */
  readonly known: readonly string[];
}

/**
 * A configuration on its way to another one, with the cell that every changed value comes from. Lists grow at their end;
 * items are taken out last, so that nothing moves meanwhile.
 */
export class Draft {
  readonly configuration: Configuration;
  /** The same, to be written. */
  readonly root: Item;
  readonly #values = new Map<object, Map<string | number, TablePlace>>();
  readonly #rows = new Map<object, DraftRow>();
  readonly #gone: { readonly holder: Item; readonly member: string; readonly item: Item }[] = [];

  constructor(before: Configuration) {
    this.configuration = structuredClone(before);
    this.root = itemOf(this.configuration);
  }

  /** The item that keys lead to, or the first key on the way that no item has. */
  find(list: string, keys: readonly string[]): { readonly item: Item } | UnknownKey {
    let item = this.root;
    for (const [index, level] of levelsOf(list).entries()) {
      const key = keys[index]!;
      const items = itemsIn(item, level.member);
      const found = items.find((child) => child[level.key] === key);
      if (found === undefined) return { level, key, known: items.map((child) => String(child[level.key])) };
      item = found;
    }
    return { item };
  }

  /** The item that keys lead to, made where it is not there yet. */
  make(list: string, keys: readonly string[]): Item {
    let item = this.root;
    for (const [index, { member, key }] of levelsOf(list).entries()) {
      item[member] ??= [];
      const items = item[member] as Item[];
      let found = items.find((child) => child[key] === keys[index]);
      if (found === undefined) {
        found = { [key]: keys[index] };
        items.push(found);
      }
      item = found;
    }
    return item;
  }

  /** Marks an item to be taken out in the end. */
  takeOut(list: string, keys: readonly string[], item: Item): void {
    const levels = levelsOf(list);
    const above = levels.slice(0, -1);
    const holder = above.length === 0 ? this.root : this.make(above.at(-1)!.list, keys.slice(0, -1));
    this.#gone.push({ holder, member: levels.at(-1)!.member, item });
  }

  /** Sets a value; an object on the way that is not there is made. */
  set(item: Item, member: string, value: unknown, place: TablePlace): void {
    const { holder, name } = holderOf(item, member);
    holder[name] = value;
    this.mark(holder, name, place);
  }

  /** Clears a value, or a whole part of an item. */
  clear(item: Item, member: string, place: TablePlace): void {
    const { holder, name } = holderOf(item, member);
    delete holder[name];
    this.mark(holder, name, place);
  }

  /** Notes the cell that a value comes from. */
  mark(holder: object, name: string | number, place: TablePlace): void {
    const values = this.#values.get(holder) ?? new Map<string | number, TablePlace>();
    this.#values.set(holder, values.set(name, place));
  }

  markRow(item: object, row: DraftRow): void {
    this.#rows.set(item, row);
  }

  /** The cell that a value comes from; undefined for a value that no table has changed. */
  placeOf(holder: object, name: string | number): TablePlace | undefined {
    return this.#values.get(holder)?.get(name);
  }

  rowOf(item: object): DraftRow | undefined {
    return this.#rows.get(item);
  }

  /** Takes out what was marked. */
  finish(): void {
    for (const { holder, member, item } of this.#gone) {
      holder[member] = itemsIn(holder, member).filter((child) => child !== item);
    }
  }
}

function itemOf(document: object): Item {
  return document as Item;
}

function holderOf(item: Item, member: string): { readonly holder: Item; readonly name: string } {
  const names = member.split(".");
  let holder = item;
  for (const name of names.slice(0, -1)) {
    holder[name] ??= {};
    holder = holder[name] as Item;
  }
  return { holder, name: names.at(-1)! };
}
