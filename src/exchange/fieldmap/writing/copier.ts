import { pointerParts } from "../../../base/findings/index.ts";
import { fieldOf, type ItemPath, type ListRule } from "../../../model/index.ts";
import type { Scalar } from "../conversions/index.ts";
import { matchConverter } from "../export-items.ts";
import type { Binding } from "../interpretation.ts";
import type { LoadedMap } from "../load-map.ts";
import type { ItemCopy } from "../structural-change.ts";
import { isObject, valueAt } from "../tree.ts";
import { memberAt, pathAround, pathId } from "./keyed-document.ts";
import type { ExportState } from "./planned-change.ts";
import type { Template } from "./templates.ts";
import type { Writer } from "./writer.ts";

/** Turns an item of the export into another of the configuration. */
export class Copier {
  readonly #state: ExportState;
  readonly #writer: Writer;
  readonly #loaded: LoadedMap;
  readonly #bindings = new Map<ItemPath, Binding[]>();
  readonly #names = new Map<string, number>();

  constructor(state: ExportState, writer: Writer, loaded: LoadedMap) {
    this.#state = state;
    this.#writer = writer;
    this.#loaded = loaded;
    for (const binding of state.interpretation.bindings) {
      const known = this.#bindings.get(binding.item);
      if (known === undefined) this.#bindings.set(binding.item, [binding]);
      else known.push(binding);
    }
  }

  /** The copy that stands for the item at a path; undefined where the map's keys cannot be written. */
  copy(rule: ListRule, path: ItemPath, { item, after, before }: Template): ItemCopy | undefined {
    const parent = item.pointer.slice(0, item.pointer.lastIndexOf("/"));
    const raws = new Map<string, string>();
    for (const binding of this.#bindings.get(item.path) ?? []) {
      const raw = this.#writer.rawFor({ ...binding, item: path });
      if (raw !== undefined) raws.set(binding.leaf.pointer, raw);
    }
    for (const match of rule.where ?? []) {
      const leaf = this.#state.tree.leaves.get(item.pointer + match.at);
      const raw = leaf === undefined ? undefined : this.#matchRaw(match, path, leaf.raw);
      if (raw === undefined) return undefined;
      raws.set(leaf!.pointer, raw);
    }
    const target = this.#parentFor(parent, item.path, path);
    const name = this.#nameFor(rule, path, item.pointer, target);
    return name === null
      ? undefined
      : { kind: "copy", template: item.pointer, parent: target, name, after, before, raws };
  }

  /** The place of the list in the export: for an item from another list, that of the item around the new one. */
  #parentFor(parent: string, from: ItemPath, to: ItemPath): string {
    const [here, there] = [pathAround(from), pathAround(to)];
    const [old, next] = [this.#pointerOf(here), this.#pointerOf(there)];
    return old !== undefined && next !== undefined && parent.startsWith(old)
      ? next + parent.slice(old.length)
      : parent;
  }

  #pointerOf(path: ItemPath): string | undefined {
    if (path.length === 0) return "";
    const key = pathId(path);
    for (const { items } of this.#state.interpretation.lists) {
      const found = items.find((item) => item.path.length === path.length && pathId(item.path) === key);
      if (found !== undefined) return found.pointer;
    }
    return undefined;
  }

  #matchRaw(
    match: NonNullable<ListRule["where"]>[number],
    path: ItemPath,
    before: string,
  ): string | undefined {
    let around = path;
    for (let i = 0; i < (match.ancestor ?? 1); i += 1) around = pathAround(around);
    const value = memberAt(this.#writer.document.at(around), match.field.split("."));
    return value === undefined
      ? undefined
      : matchConverter(match, prefixOf(around), this.#loaded).write(value as Scalar, before);
  }

  /** The name of a new item; undefined where its parent is a list; null where it cannot be. */
  #nameFor(rule: ListRule, path: ItemPath, template: string, parent: string): string | undefined | null {
    if (Array.isArray(valueAt(this.#state.tree.root, template.slice(0, template.lastIndexOf("/")))))
      return undefined;
    const old = pointerParts(template).at(-1)!;
    const item = this.#writer.document.at(path);
    const names = rule.rules.flatMap((inner) => {
      if (inner.kind !== "value" || inner.segment !== 0) return [];
      const value = memberAt(item, inner.field.split("."));
      const field = `${prefixOf(path)}${inner.field}`;
      return [
        value === undefined ? undefined : this.#writer.converter(inner, field).write(value as Scalar, old),
      ];
    });
    if (names.length === 0) return this.#freshName(parent, old, path.at(-1)!);
    return names.every((name) => name === names[0]) ? (names[0] ?? null) : null;
  }

  /** A name that nothing has: the next number where the others are numbers, else the key. */
  #freshName(parent: string, old: string, key: string): string | null {
    const value = valueAt(this.#state.tree.root, parent);
    const taken = isObject(value) ? Object.keys(value) : [];
    if (!/^\d{1,9}$/.test(old)) return taken.includes(key) ? null : key;
    const last = this.#names.get(parent) ?? Math.max(0, ...taken.map(Number).filter(Number.isSafeInteger));
    this.#names.set(parent, last + 1);
    return String(last + 1).padStart(old.length > 1 && old.startsWith("0") ? old.length : 1, "0");
  }
}

/** "outputs[].filters[]." of a path of keys. */
function prefixOf(path: ItemPath): string {
  return path.length === 0 ? "" : `${fieldOf(path)}.`;
}
