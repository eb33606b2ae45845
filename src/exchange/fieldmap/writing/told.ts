import { type ItemPath, isKeyIn } from "../../../model/index.ts";
import type { FoundItem, Interpretation } from "../interpretation.ts";
import type { InterpretedExport } from "../read-export.ts";
import { type Leaf, lineFinder } from "../tree.ts";
import { pathId } from "./keyed-document.ts";
import { placeId } from "./place-changes.ts";
import type { PlannedChange } from "./planned-change.ts";

/** A place of the export that was changed. */
export interface WrittenPlace {
  /** JSON Pointer in the tree of the export written, or of the original where nothing is there any more. */
  readonly pointer: string;
  readonly line: number;
  /** Absent where the original has no such place. */
  readonly before?: string;
  /** Absent where the export written has no such place. */
  readonly after?: string;
}

/** A value that no rule reads: it came with an item that was copied, or went with one that was taken out. */
export interface SilentValue {
  readonly pointer: string;
  readonly raw: string;
}

/** An item that the export written has more. */
export interface AddedItem {
  /** JSON Pointer in the tree of the export written. */
  readonly pointer: string;
  readonly line: number;
  /** List of the configuration, with the keys of the items around it. */
  readonly list: string;
  readonly key: string;
  /** Key of the item of which it is a copy. */
  readonly like: string;
  /** Values of the other item that the map does not know, which the copy has too. */
  readonly copied: readonly SilentValue[];
}

/** An item of the original that is no longer there. */
export interface RemovedItem {
  /** JSON Pointer in the tree of the original. */
  readonly pointer: string;
  readonly line: number;
  readonly list: string;
  readonly key: string;
  /** Values that the map does not know and that went with it. */
  readonly lost: readonly SilentValue[];
}

/** What became of items and places. Of what is inside an added item or went with a removed one nothing is told. */
export function tellRestructuring(
  done: readonly PlannedChange[],
  original: InterpretedExport,
  written: InterpretedExport,
): {
  readonly added: readonly AddedItem[];
  readonly removed: readonly RemovedItem[];
  readonly changed: readonly WrittenPlace[];
} {
  if (done.length === 0) return { added: [], removed: [], changed: [] };
  const [before, after] = [new Places(original), new Places(written)];
  const added = outermost(done.filter(({ kind }) => kind === "add")).flatMap(({ item, like }) => {
    const found = after.item(item);
    if (found === undefined || before.item(item) !== undefined) return [];
    return [
      { ...after.told(found), ...namesOf(item), like: like ?? "", copied: after.silent(found.pointer) },
    ];
  });
  const removed = outermost(done.filter(({ kind }) => kind === "remove")).flatMap(({ item }) => {
    const found = before.item(item);
    if (found === undefined) return [];
    return [{ ...before.told(found), ...namesOf(item), lost: before.silent(found.pointer) }];
  });
  const isNew = (path: ItemPath) => before.item(path) === undefined && path.length > 0;
  const changed = done.flatMap(({ kind, item, fields }) =>
    kind === "add" || kind === "remove" || isNew(item)
      ? []
      : fields.flatMap((names) => placeTold(pathId([...item, ...names]), before, after)),
  );
  const byLine = (a: { readonly line: number }, b: { readonly line: number }) => a.line - b.line;
  return { added: added.sort(byLine), removed: removed.sort(byLine), changed };
}

function placeTold(id: string, before: Places, after: Places): readonly WrittenPlace[] {
  const [old, now] = [before.leaf(id), after.leaf(id)];
  const leaf = now ?? old;
  if (leaf === undefined) return [];
  const line = (now === undefined ? before : after).lineOf(leaf);
  return [
    {
      pointer: leaf.pointer,
      line,
      ...(old === undefined ? {} : { before: old.raw }),
      ...(now === undefined ? {} : { after: now.raw }),
    },
  ];
}

/** Items of an opened export by their paths. */
class Places {
  readonly #opened: InterpretedExport;
  readonly #items: ReadonlyMap<string, FoundItem>;
  readonly #leaves: ReadonlyMap<string, Leaf>;

  constructor(opened: InterpretedExport) {
    this.#opened = opened;
    this.#items = new Map(itemsOf(opened.interpretation).map((item) => [pathId(item.path), item]));
    this.#leaves = new Map(opened.interpretation.bindings.map((binding) => [placeId(binding), binding.leaf]));
  }

  item(path: ItemPath): FoundItem | undefined {
    return this.#items.get(pathId(path));
  }

  leaf(id: string): Leaf | undefined {
    return this.#leaves.get(id);
  }

  told({ pointer }: FoundItem) {
    const first = this.#under(pointer)[0];
    return { pointer, line: first === undefined ? 0 : this.lineOf(first) };
  }

  silent(pointer: string): readonly SilentValue[] {
    const { used } = this.#opened.interpretation;
    return this.#under(pointer)
      .filter((leaf) => !used.has(leaf.pointer))
      .map((leaf) => ({ pointer: leaf.pointer, raw: leaf.raw }));
  }

  lineOf({ start }: Leaf): number {
    return lineFinder(this.#opened.decoded.text)(start);
  }

  #under(pointer: string): readonly Leaf[] {
    return [...this.#opened.tree.leaves.values()].filter((leaf) => leaf.pointer.startsWith(`${pointer}/`));
  }
}

function itemsOf({ lists }: Interpretation): readonly FoundItem[] {
  return lists.flatMap(({ items }) => items);
}

/** Without items inside others of them. */
function outermost(changes: readonly PlannedChange[]): readonly PlannedChange[] {
  const ids = new Set(changes.map(({ item }) => pathId(item)));
  return changes.filter(
    ({ item }) =>
      !item.some((_part, i) => i > 0 && i < item.length - 1 && ids.has(pathId(item.slice(0, i + 1)))),
  );
}

function namesOf(path: ItemPath): { readonly list: string; readonly key: string } {
  const list = path.slice(0, -1).map((part, depth) => (isKeyIn(path, depth) ? `'${part}'` : part));
  return { list: list.join(" "), key: path.at(-1)! };
}
