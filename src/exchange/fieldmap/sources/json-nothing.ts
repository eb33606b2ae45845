import { pointerParts } from "../../../base/findings/index.ts";
import type { NewPlace } from "../structural-change.ts";
import type { TextEdit } from "../text-edit.ts";
import { type Leaf, pointerPart } from "../tree.ts";

/**
 * Exports that say by null that a group is not there: where one is wanted, an object or a list takes the place of the null;
 * where one is emptied and its likes are null, it becomes null too.
 */
export class JsonNothing {
  readonly #leaves: ReadonlyMap<string, Leaf>;
  #patterns: ReadonlySet<string> | undefined;

  constructor(leaves: ReadonlyMap<string, Leaf>) {
    this.#leaves = leaves;
  }

  /** Places under a null, each with what takes its place, and those that are no concern of it. */
  filled(
    places: readonly NewPlace[],
    textOf: (place: NewPlace) => string,
    comma: string,
  ): { readonly edits: readonly TextEdit[]; readonly others: readonly NewPlace[] } | undefined {
    const groups = new Map<Leaf, { readonly names: readonly string[]; readonly place: NewPlace }[]>();
    const others: NewPlace[] = [];
    for (const place of places) {
      const found = this.#nullAround(place);
      if (found === undefined) others.push(place);
      else groups.set(found.leaf, [...(groups.get(found.leaf) ?? []), { names: found.names, place }]);
    }
    const edits: TextEdit[] = [];
    for (const [{ start, end }, members] of groups) {
      if (members.every(({ place }) => place.filler)) continue;
      const text = valueFrom(members, textOf, comma);
      if (text === undefined) return undefined;
      edits.push({ start, end, text });
    }
    return { edits, others };
  }

  #nullAround({ item, names }: NewPlace) {
    let at = item;
    for (const [i, name] of names.slice(0, -1).entries()) {
      at += pointerPart(name);
      const leaf = this.#leaves.get(at);
      if (leaf !== undefined)
        return leaf.style === "json-literal" && leaf.raw === "null"
          ? { leaf, names: names.slice(i + 1) }
          : undefined;
    }
    return undefined;
  }

  /** Whether another item of the same kind has null in the place that one has. */
  isNullElsewhere(pointer: string): boolean {
    this.#patterns ??= new Set(
      [...this.#leaves.values()].flatMap((leaf) =>
        leaf.style === "json-literal" && leaf.raw === "null" ? patternsOf(leaf.pointer) : [],
      ),
    );
    return patternsOf(pointer).some((pattern) => this.#patterns!.has(pattern));
  }
}

/** The place with any one of its parts but the last left open. */
function patternsOf(pointer: string): readonly string[] {
  const parts = pointerParts(pointer);
  return parts.slice(0, -1).map((_part, i) => parts.map((part, k) => (k === i ? "*" : part)).join("\n"));
}

interface Member {
  readonly names: readonly string[];
  readonly place: NewPlace;
}

/** An object, or a list where the names count from zero; undefined where they do neither. */
function valueFrom(
  members: readonly Member[],
  textOf: (place: NewPlace) => string,
  comma: string,
): string | undefined {
  const byName = new Map<string, Member[]>();
  for (const { names, place } of members) {
    const [name, ...rest] = names;
    byName.set(name!, [...(byName.get(name!) ?? []), { names: rest, place }]);
  }
  const names = [...byName.keys()];
  const isList = names.every((name) => /^\d+$/.test(name));
  if (isList && !names.every((_name, i) => byName.has(String(i)))) return undefined;
  const ordered = isList ? names.map((_name, i) => String(i)) : names;
  const texts = ordered.map((name) => {
    const inner = byName.get(name)!;
    const [only] = inner;
    const own = only!.names.length === 0 ? textOf(only!.place) : valueFrom(inner, textOf, comma);
    return own === undefined || isList ? own : `${JSON.stringify(name)}: ${own}`;
  });
  if (texts.includes(undefined)) return undefined;
  return isList ? `[${texts.join(comma)}]` : `{${texts.join(comma)}}`;
}
