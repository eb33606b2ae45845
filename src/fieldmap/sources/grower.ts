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

  /** The object at a path, made if it is not there; "-" adds an object to a list. Gives its pointer too. */
  objectAt(
    path: readonly string[],
    offset: number,
  ): { readonly object: TreeObject; readonly pointer: string } {
    if (path.length > MAX_TREE_DEPTH) {
      throw notReadable(`The export is nested more than ${MAX_TREE_DEPTH} levels deep.`, this.#text, offset);
    }
    let object = this.root;
    let pointer = "";
    for (let i = 0; i < path.length; i += 1) {
      const part = path[i]!;
      pointer += pointerPart(part);
      if (path[i + 1] === "-") {
        if (!has(object, part)) object[part] = [];
        const list = object[part];
        if (!Array.isArray(list)) throw this.#taken(pointer, offset);
        pointer += pointerPart(list.length);
        object = addTo(list);
        i += 1;
        continue;
      }
      if (!has(object, part)) object[part] = newObject();
      const next: TreeValue = object[part]!;
      if (!isObject(next)) throw this.#taken(pointer, offset);
      object = next;
    }
    return { object, pointer };
  }

  set(path: readonly string[], leaf: Omit<Leaf, "pointer">): void {
    const { object, pointer } = this.objectAt(path.slice(0, -1), leaf.start);
    this.setIn(object, pointer, path.at(-1)!, leaf);
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
