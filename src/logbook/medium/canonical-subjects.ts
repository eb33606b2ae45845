import { isCanonical } from "../../base/canonical/index.ts";
import type { ResolvedConfiguration } from "./configurations.ts";
import type { Pieces } from "./edits.ts";
import type { KeptDocument } from "./kept-document.ts";

/** What an entry says of its configuration: whose it is. Values are what the configuration has, of whatever kind. */
const SUBJECT = [
  ["screen", "siteId"],
  ["screen", "screenId"],
  ["unit", "profileId"],
  ["unit", "serial"],
] as const;

interface Known {
  readonly pieces: Pieces;
  /** Among the pieces, where the values of {@link SUBJECT} are; -1 for one that is missing. */
  readonly places: readonly number[];
}

/**
 * Whether configurations are in the form of RFC 8785, and whose they are. Many have their structure in common: then only the
 * values that changed since the last one are looked at, and no document is put together.
 */
export class CanonicalSubjects {
  #known: Known | undefined;

  /** A document with the screen and the unit of a configuration and nothing else; undefined where its form is another. */
  subjectOf({ text, pieces }: ResolvedConfiguration): KeptDocument | undefined {
    if (this.#known === undefined || !hasSameStructure(this.#known.pieces, pieces)) {
      const document = parsed(text);
      if (document === undefined || !isCanonical(document, text)) return undefined;
      const places = placesIn(document, text, pieces);
      this.#known = places && { pieces, places };
      if (this.#known === undefined) return document;
    }
    const known: Known = this.#known!;
    for (let index = 1; index < pieces.length; index += 2) {
      const piece = pieces[index]!;
      if (piece !== known.pieces[index] && !isCanonical(parsed(piece), piece)) return undefined;
    }
    this.#known = { pieces, places: known.places };
    const subject: Record<string, Record<string, unknown>> = { screen: {}, unit: {} };
    for (const [at, [part, name]] of SUBJECT.entries()) {
      const place = known.places[at]!;
      if (place >= 0) subject[part]![name] = JSON.parse(pieces[place]!);
    }
    return subject;
  }
}

function hasSameStructure(a: Pieces, b: Pieces): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 2) if (a[index] !== b[index]) return false;
  return true;
}

/** Undefined where a walk through the document may not meet its values in the order of the text: names that look like numbers. */
function placesIn(document: KeptDocument, text: string, pieces: Pieces): readonly number[] | undefined {
  if (/"[0-9]+":/.test(text)) return undefined;
  const places = SUBJECT.map(() => -1);
  let scalar = 0;
  const visit = (value: unknown, path: readonly string[]): void => {
    if (typeof value !== "object" || value === null) {
      const at = SUBJECT.findIndex(
        ([part, name]) => path.length === 2 && path[0] === part && path[1] === name,
      );
      if (at >= 0) places[at] = 2 * scalar + 1;
      scalar += 1;
      return;
    }
    for (const [name, member] of Object.entries(value))
      visit(member, path.length < 3 ? [...path, name] : path);
  };
  visit(document, []);
  return scalar === pieces.length >> 1 ? places : undefined;
}

function parsed(text: string): KeptDocument | undefined {
  try {
    return JSON.parse(text) as KeptDocument;
  } catch {
    return undefined;
  }
}
