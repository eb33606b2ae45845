import type { ResolvedConfiguration } from "./configurations.ts";
import type { Pieces } from "./edits.ts";
import type { KeptDocument } from "./record.ts";

/**
 * Parses the configurations of one screen's history. Visits change a few values each, so what two of them have in common
 * is parsed once and is the same object in both: quicker, and whoever compares them sees at once which parts are equal.
 */
export class SharedDocuments {
  #last: { readonly pieces: Pieces; readonly document: KeptDocument } | undefined;

  /** The document of a configuration, to be read only; undefined where its text is no JSON. */
  parse({ text, pieces }: ResolvedConfiguration): KeptDocument | undefined {
    const changed = this.#last && changedScalars(this.#last.pieces, pieces);
    if (this.#last !== undefined && changed !== undefined) {
      this.#last = { pieces, document: withScalars(this.#last.document, changed) };
      return this.#last.document;
    }
    const document = parsed(text);
    const keepsOrder = document !== undefined && isInOrder(text, pieces, document);
    this.#last = keepsOrder ? { pieces, document } : undefined;
    return document;
  }
}

/** Scalars by their position among all scalars, in the order of the text. */
type Scalars = ReadonlyMap<number, unknown>;

/** The scalars that differ between two texts of the same structure; undefined for other structures. */
function changedScalars(from: Pieces, to: Pieces): Scalars | undefined {
  if (from.length !== to.length) return undefined;
  const changed = new Map<number, unknown>();
  for (let index = 0; index < from.length; index += 1) {
    if (from[index] === to[index]) continue;
    if (index % 2 === 0) return undefined;
    changed.set(index >> 1, JSON.parse(to[index]!));
  }
  return changed;
}

/**
 * Whether a walk through the document meets the scalars in the order of the text: not so where a name stands twice, or
 * looks like a number, since JavaScript puts such members first.
 */
function isInOrder(text: string, pieces: Pieces, document: KeptDocument): boolean {
  return !/"[0-9]+":/.test(text) && scalarsIn(document) === pieces.length >> 1;
}

function scalarsIn(value: unknown): number {
  if (typeof value !== "object" || value === null) return 1;
  let count = 0;
  for (const member of Object.values(value)) count += scalarsIn(member);
  return count;
}

/** A copy with other scalars, in which every part without one is the same object as before. */
function withScalars(document: KeptDocument, changed: Scalars): KeptDocument {
  let at = 0;
  const copy = (value: unknown): unknown => {
    if (typeof value !== "object" || value === null) {
      const index = at;
      at += 1;
      return changed.has(index) ? changed.get(index) : value;
    }
    if (Array.isArray(value)) {
      let items: unknown[] | undefined;
      for (let index = 0; index < value.length; index += 1) {
        const item = copy(value[index]);
        if (item === value[index]) continue;
        items ??= value.slice();
        items[index] = item;
      }
      return items ?? value;
    }
    let members: Record<string, unknown> | undefined;
    for (const name in value as Record<string, unknown>) {
      const before = (value as Record<string, unknown>)[name];
      const member = copy(before);
      if (member === before) continue;
      members ??= { ...value };
      members[name] = member;
    }
    return members ?? value;
  };
  return copy(document) as KeptDocument;
}

function parsed(text: string): KeptDocument | undefined {
  try {
    return JSON.parse(text) as KeptDocument;
  } catch {
    return undefined;
  }
}
