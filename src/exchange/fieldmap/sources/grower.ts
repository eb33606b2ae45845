import {
  has,
  isObject,
  type Leaf,
  LeafMap,
  MAX_TREE_DEPTH,
  newObject,
  notReadable,
  pointerPart,
  type TreeList,
  type TreeObject,
  type TreeValue,
} from "../tree.ts";

/** Builds a tree line by line, from paths. A place that would be taken twice is refused. */
export class TreeGrower {
  readonly root: TreeObject = newObject();
  readonly leaves = new LeafMap();
  readonly #text: string;

  constructor(text: string) {
    this.#text = text;
  }

  /**
   * The object at a path, made if it is not there; "-" adds an object to a list, a number is an item of one: the next, or
   * one that is there. Gives its pointer too.
   */
  objectAt(
    path: readonly (string | number)[],
    offset: number,
  ): { readonly object: TreeObject; readonly pointer: string } {
    if (path.length > MAX_TREE_DEPTH) {
      throw notReadable(`The export is nested more than ${MAX_TREE_DEPTH} levels deep.`, this.#text, offset);
    }
    let object = this.root;
    let pointer = "";
    for (let i = 0; i < path.length; i += 1) {
      const part = String(path[i]);
      pointer += pointerPart(part);
      const next = path[i + 1];
      if (next === "-" || typeof next === "number") {
        if (!has(object, part)) object[part] = [];
        const list = object[part];
        if (!Array.isArray(list)) throw this.#taken(pointer, offset);
        const at = next === "-" ? list.length : next;
        pointer += pointerPart(at);
        const item = at < list.length ? list[at] : addTo(list);
        if (!isObject(item)) throw this.#taken(pointer, offset);
        object = item;
        i += 1;
        continue;
      }
      if (!has(object, part)) object[part] = newObject();
      const inner: TreeValue = object[part]!;
      if (!isObject(inner)) throw this.#taken(pointer, offset);
      object = inner;
    }
    return { object, pointer };
  }

  /** A value at a path; a number at its end adds it to a list. */
  set(path: readonly (string | number)[], leaf: Omit<Leaf, "pointer">): void {
    const last = path.at(-1)!;
    const isItem = typeof last === "number";
    const { object, pointer } = this.objectAt(path.slice(0, isItem ? -2 : -1), leaf.start);
    if (isItem) this.#addIn(object, pointer, String(path.at(-2)), leaf);
    else this.setIn(object, pointer, last, leaf);
  }

  #addIn(object: TreeObject, at: string, name: string, leaf: Omit<Leaf, "pointer">): void {
    if (!has(object, name)) object[name] = [];
    const list = object[name];
    if (!Array.isArray(list)) throw this.#taken(at + pointerPart(name), leaf.start);
    const pointer = at + pointerPart(name) + pointerPart(list.length);
    list.push(leaf.raw);
    this.leaves.set(pointer, { pointer, ...leaf });
  }

  setIn(object: TreeObject, at: string, name: string, leaf: Omit<Leaf, "pointer">): void {
    const pointer = at + pointerPart(name);
    if (has(object, name)) throw this.#taken(pointer, leaf.start);
    object[name] = leaf.raw;
    this.leaves.set(pointer, { pointer, ...leaf });
  }

  #taken(pointer: string, offset: number) {
    return notReadable(
      `'${pointer.slice(0, 80)}' stands in the export twice; which of the two holds?`,
      this.#text,
      offset,
    );
  }
}

function addTo(list: TreeList): TreeObject {
  const item = newObject();
  list.push(item);
  return item;
}
