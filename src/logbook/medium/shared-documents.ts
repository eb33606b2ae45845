import type { ResolvedConfiguration } from "./configurations.ts";
import type { Pieces } from "./edits.ts";
import type { KeptDocument } from "./kept-document.ts";

/**
 * Parses the configurations of one screen's history. Visits change a few values each, so what two of them have in common
 * is parsed once and is the same object in both: quicker, and whoever compares them sees at once which parts are equal.
 */
export class SharedDocuments {
  readonly #sizes: Sizes = new WeakMap();
  #last: { readonly pieces: Pieces; readonly document: KeptDocument } | undefined;

  /** The document of a configuration, to be read only; undefined where its text is no JSON. */
  parse({ text, pieces }: ResolvedConfiguration): KeptDocument | undefined {
    const changed = this.#last && changedScalars(this.#last.pieces, pieces);
    if (this.#last !== undefined && changed !== undefined) {
      this.#last = { pieces, document: withScalars(this.#last.document, changed, this.#sizes) };
      return this.#last.document;
    }
    const document = parsed(text);
    const keepsOrder = document !== undefined && isInOrder(text, pieces, document, this.#sizes);
    this.#last = keepsOrder ? { pieces, document } : undefined;
    return document;
  }
}

/** Scalars that are other, by their position among all scalars in the order of the text; the first first. */
type Scalars = readonly (readonly [position: number, scalar: unknown])[];

/** How many scalars are inside each object and list that was looked at. */
type Sizes = WeakMap<object, number>;

/** The scalars that differ between two texts of the same structure; undefined for other structures. */
function changedScalars(from: Pieces, to: Pieces): Scalars | undefined {
  if (from.length !== to.length) return undefined;
  const changed: [number, unknown][] = [];
  for (let index = 0; index < from.length; index += 1) {
    if (from[index] === to[index]) continue;
    if (index % 2 === 0) return undefined;
    changed.push([index >> 1, JSON.parse(to[index]!)]);
  }
  return changed;
}

/**
 * Whether a walk through the document meets the scalars in the order of the text: not so where a name stands twice, or
 * looks like a number, since JavaScript puts such members first.
 */
function isInOrder(text: string, pieces: Pieces, document: KeptDocument, sizes: Sizes): boolean {
  return !/"[0-9]+":/.test(text) && scalarsIn(document, sizes) === pieces.length >> 1;
}

function scalarsIn(value: unknown, sizes: Sizes): number {
  if (typeof value !== "object" || value === null) return 1;
  const known = sizes.get(value);
  if (known !== undefined) return known;
  let size = 0;
  for (const member of Object.values(value)) size += scalarsIn(member, sizes);
  sizes.set(value, size);
  return size;
}

/** A copy with other scalars, in which every part without one is the same object as before and not looked into. */
function withScalars(document: KeptDocument, changed: Scalars, sizes: Sizes): KeptDocument {
  let next = 0;
  const copy = (value: unknown, start: number): unknown => {
    if (typeof value !== "object" || value === null) {
      next += 1;
      return changed[next - 1]![1];
    }
    const members = (Array.isArray(value) ? value.slice() : { ...value }) as Record<string, unknown>;
    let at = start;
    for (const name of Object.keys(value)) {
      const end = at + scalarsIn(members[name], sizes);
      if (next < changed.length && changed[next]![0] < end) members[name] = copy(members[name], at);
      at = end;
    }
    sizes.set(members, at - start);
    return members;
  };
  return (changed.length === 0 ? document : copy(document, 0)) as KeptDocument;
}

function parsed(text: string): KeptDocument | undefined {
  try {
    return JSON.parse(text) as KeptDocument;
  } catch {
    return undefined;
  }
}
