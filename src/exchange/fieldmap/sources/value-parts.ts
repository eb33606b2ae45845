import { pointerParts } from "../../../base/findings/index.ts";
import type { ValueParts } from "../../../model/index.ts";
import type { NewPlace, PlaceRemoval, StructuralChange } from "../structural-change.ts";
import type { TextEdit } from "../text-edit.ts";
import {
  type ExportTree,
  isObject,
  type Leaf,
  LeafMap,
  newObject,
  notReadable,
  pointerPart,
  valueAt,
} from "../tree.ts";
import { type FormPart, type FoundValue, fitsExtent, formParts, matchForm } from "./line-forms.ts";

/** A declaration of parts, compiled. */
interface Declared {
  readonly place: readonly string[];
  readonly forms: readonly (readonly FormPart[])[];
  readonly nothing: readonly string[];
}

/** A value in parts, or one that says that there is nothing. */
interface Whole {
  readonly leaf: Leaf;
  readonly declared: Declared;
  /** The form that fits, and what was found; undefined where there is nothing. */
  readonly fit: { readonly form: readonly FormPart[]; readonly found: readonly FoundValue[] } | undefined;
}

/**
 * An export in which values that hold several things are objects of their parts. Each part is a value by itself: it stands
 * somewhere in the text, and when it changes the rest of the whole stays as it is.
 *
 * @throws BoothkeepError field-map.unusable for a form that cannot be; export.not-readable where a value in parts is
 *   written with escapes, since its parts then stand nowhere in the text
 */
export function withParts(
  base: ExportTree,
  text: string,
  declarations: readonly ValueParts[] | undefined,
): ExportTree {
  if (declarations === undefined) return base;
  const parted = new PartedTree(base, text, declarations.map(compiled));
  return {
    root: base.root,
    leaves: parted.leaves,
    nothing: parted.nothing,
    write: (leaf, raw) => parted.write(leaf, raw),
    restructure: (changes) => parted.restructure(changes),
  };
}

function compiled({ at, forms, nothing = [] }: ValueParts): Declared {
  return { place: pointerParts(at), forms: forms.map(formParts), nothing };
}

class PartedTree {
  readonly leaves = new LeafMap();
  readonly nothing = new Set<string>();
  readonly #base: ExportTree;
  readonly #text: string;
  readonly #declared: readonly Declared[];
  readonly #wholes = new Map<string, Whole>();

  constructor(base: ExportTree, text: string, declared: readonly Declared[]) {
    this.#base = base;
    this.#text = text;
    this.#declared = declared;
    for (const leaf of base.leaves.values()) {
      const whole = this.#wholeOf(leaf);
      if (whole === undefined) this.leaves.set(leaf.pointer, leaf);
      else this.#takeApart(whole);
    }
  }

  #declaredAt(pointer: string): Declared | undefined {
    const parts = pointerParts(pointer);
    return this.#declared.find(
      ({ place }) =>
        place.length === parts.length && place.every((part, i) => part === "*" || part === parts[i]),
    );
  }

  #wholeOf(leaf: Leaf): Whole | undefined {
    const declared = this.#declaredAt(leaf.pointer);
    if (declared === undefined) return undefined;
    if (declared.nothing.includes(leaf.raw.trim())) return { leaf, declared, fit: undefined };
    for (const form of declared.forms) {
      const found = matchForm(leaf.raw, form);
      if (found !== undefined) return { leaf, declared, fit: { form, found } };
    }
    return undefined;
  }

  #takeApart(whole: Whole): void {
    const { leaf, fit } = whole;
    const object = newObject();
    const offset = fit === undefined ? 0 : leaf.start + this.#insideOf(leaf);
    for (const { name, raw, start, end, style } of fit?.found ?? []) {
      const pointer = leaf.pointer + pointerPart(name);
      object[name] = raw;
      this.leaves.set(pointer, { pointer, raw, start: offset + start, end: offset + end, style });
    }
    if (fit === undefined) {
      this.leaves.set(leaf.pointer, leaf);
      this.nothing.add(leaf.pointer);
    }
    this.#wholes.set(leaf.pointer, whole);
    const at = leaf.pointer.lastIndexOf("/");
    const around = valueAt(this.#base.root, leaf.pointer.slice(0, at));
    const name = pointerParts(leaf.pointer).at(-1)!;
    if (Array.isArray(around)) around[Number(name)] = object;
    else if (isObject(around)) around[name] = object;
  }

  /** Where in a value's span its text begins: behind a quote, if there is one. */
  #insideOf({ raw, start, end }: Leaf): number {
    const inside = this.#text.slice(start, end).indexOf(raw);
    if (inside < 0) {
      const words = "A value that the map takes apart is written with escapes, so its parts cannot be found.";
      throw notReadable(words, this.#text, start);
    }
    return inside;
  }

  #wholeAround(pointer: string): { readonly whole: Whole; readonly name: string } | undefined {
    const at = pointer.lastIndexOf("/");
    const whole = this.#wholes.get(pointer.slice(0, at));
    return whole === undefined ? undefined : { whole, name: pointerParts(pointer).at(-1)! };
  }

  write(leaf: Leaf, raw: string): string | undefined {
    const part = this.#wholeAround(leaf.pointer);
    if (part === undefined) return this.#base.write(leaf, raw);
    const { whole, name } = part;
    const next = rewritten(whole, new Map([[name, raw]]));
    const written = next === undefined ? undefined : this.#base.write(whole.leaf, next);
    const head = this.#text.slice(whole.leaf.start, leaf.start);
    const tail = this.#text.slice(leaf.end, whole.leaf.end);
    const fits =
      written?.startsWith(head) && written.endsWith(tail) && written.length >= head.length + tail.length;
    return fits === true ? written!.slice(head.length, written!.length - tail.length) : undefined;
  }

  restructure(changes: readonly StructuralChange[]): readonly TextEdit[] | undefined {
    const open = new OpenWholes();
    const others: StructuralChange[] = [];
    for (const change of changes) {
      if (change.kind === "copy") {
        const raws = this.#wholeRaws(change.raws);
        if (raws === undefined) return undefined;
        others.push({ ...change, raws });
      } else if (change.kind === "remove") {
        if (!this.#takeOut(change, open)) others.push(this.#withWholes(change));
      } else if (!this.#putIn(change, open)) others.push(change);
    }
    const edits: TextEdit[] = [];
    for (const [pointer, { gone, put, last }] of open.places) {
      const declared = this.#declaredAt(pointer)!;
      const whole = this.#wholes.get(pointer);
      const names = new Set(whole?.fit?.found.map(({ name }) => name));
      const isEmptied = gone.size > 0 && [...names].every((name) => gone.has(name));
      if (isEmptied && put.size === 0) {
        const text =
          declared.nothing[0] === undefined ? undefined : this.#replaced(whole!, declared.nothing[0]);
        if (text === undefined) others.push({ kind: "remove", pointer });
        else edits.push(text);
        continue;
      }
      if (gone.size > 0) return undefined;
      const raw = composed(declared, whole, put);
      if (raw === undefined) return undefined;
      if (whole === undefined) others.push({ ...last!, names: last!.names.slice(0, -1), raw, bare: false });
      else {
        const edit = this.#replaced(whole, raw);
        if (edit === undefined) return undefined;
        edits.push(edit);
      }
    }
    if (others.length === 0) return edits;
    const rest = this.#base.restructure(others);
    return rest === undefined ? undefined : [...rest, ...edits];
  }

  #replaced({ leaf }: Whole, raw: string): TextEdit | undefined {
    const text = this.#base.write(leaf, raw);
    return text === undefined ? undefined : { start: leaf.start, end: leaf.end, text };
  }

  /** Values of a template, with those in parts put together. */
  #wholeRaws(raws: ReadonlyMap<string, string>): ReadonlyMap<string, string> | undefined {
    const own = new Map<string, string>();
    const changed = new Map<Whole, Map<string, string>>();
    for (const [pointer, raw] of raws) {
      const part = this.#wholeAround(pointer);
      if (part === undefined) own.set(pointer, raw);
      else {
        const parts = changed.get(part.whole) ?? new Map<string, string>();
        changed.set(part.whole, parts.set(part.name, raw));
      }
    }
    for (const [whole, parts] of changed) {
      const next = rewritten(whole, parts);
      if (next === undefined) return undefined;
      own.set(whole.leaf.pointer, next);
    }
    return own;
  }

  #withWholes(change: PlaceRemoval): PlaceRemoval {
    const besides = change.besides?.map(
      (pointer) => this.#wholeAround(pointer)?.whole.leaf.pointer ?? pointer,
    );
    return besides === undefined ? change : { ...change, besides: [...new Set(besides)] };
  }

  #takeOut({ pointer, besides = [] }: PlaceRemoval, open: OpenWholes): boolean {
    const self = this.#wholes.get(pointer);
    const part = self === undefined ? this.#wholeAround(pointer) : undefined;
    const whole = self ?? part?.whole;
    if (whole === undefined) return false;
    const { gone } = open.at(whole.leaf.pointer);
    for (const { name } of whole.fit?.found ?? []) {
      const own = whole.leaf.pointer + pointerPart(name);
      if (self !== undefined || part!.name === name || besides.includes(own)) gone.add(name);
    }
    return true;
  }

  #putIn(change: NewPlace, open: OpenWholes): boolean {
    const pointer = change.item + change.names.map(pointerPart).join("");
    const around = pointer.slice(0, pointer.lastIndexOf("/"));
    if (change.names.length < 2 || this.#declaredAt(around) === undefined) return false;
    const place = open.at(around);
    place.put.set(change.names.at(-1)!, change.raw);
    if (place.last === undefined || !change.filler) place.last = change;
    return true;
  }
}

/** What is to become of values in parts. */
class OpenWholes {
  readonly places = new Map<string, { gone: Set<string>; put: Map<string, string>; last?: NewPlace }>();

  at(pointer: string) {
    const known = this.places.get(pointer) ?? { gone: new Set<string>(), put: new Map<string, string>() };
    this.places.set(pointer, known);
    return known;
  }
}

/** A value with other parts; undefined where it would read as something else. */
function rewritten({ leaf, fit }: Whole, parts: ReadonlyMap<string, string>): string | undefined {
  let raw = "";
  let from = 0;
  for (const value of fit?.found ?? []) {
    const next = parts.get(value.name);
    if (next === undefined) continue;
    const word = wordFor(value.style, next);
    if (word === undefined) return undefined;
    raw += leaf.raw.slice(from, value.start) + word;
    from = value.end;
  }
  raw += leaf.raw.slice(from);
  return fit !== undefined && readsAs(raw, fit.form, parts) ? raw : undefined;
}

/** A value for parts that the export lacks, in the first form that has room for all of them. */
function composed(
  { forms }: Declared,
  whole: Whole | undefined,
  put: ReadonlyMap<string, string>,
): string | undefined {
  const parts = new Map(whole?.fit?.found.map(({ name, raw }) => [name, raw]));
  for (const [name, raw] of put) parts.set(name, raw);
  for (const form of forms) {
    const names = form.flatMap((part) => (part.kind === "value" ? [part.name] : []));
    if (names.length < parts.size || names.some((name) => !parts.has(name))) continue;
    const words = form.map((part) => {
      if (part.kind === "space") return " ";
      return part.kind === "words" ? part.text : wordFor(part.style, parts.get(part.name)!);
    });
    const raw = words.join("");
    if (!words.includes(undefined) && readsAs(raw, form, parts)) return raw;
  }
  return undefined;
}

function wordFor(style: FoundValue["style"], raw: string): string | undefined {
  if (style === "quoted") return raw.includes('"') ? undefined : `"${raw}"`;
  return (style === "number" || style === "letters") && !fitsExtent(style, raw) ? undefined : raw;
}

function readsAs(raw: string, form: readonly FormPart[], parts: ReadonlyMap<string, string>): boolean {
  const found = new Map(matchForm(raw, form)?.map((value) => [value.name, value.raw]));
  return found.size > 0 && [...parts].every(([name, own]) => found.get(name) === own);
}
