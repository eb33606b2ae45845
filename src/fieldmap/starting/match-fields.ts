import { FIELDS } from "../../model/index.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { realValues, valueFit } from "./field-values.ts";
import type { ScalarShape } from "./shape.ts";
import { likeness, meaningOf, meaningOfField } from "./vocabulary.ts";

/** A place of an item that may hold a field of it. */
export interface FieldMatch {
  /** Path of the field from the item on. */
  readonly field: string;
  /** The same from the root. */
  readonly path: string;
  readonly at: string;
  readonly shape: ScalarShape;
  readonly score: number;
}

/** Below this a match is a guess that costs a person more than it helps. */
const LEAST_SCORE = 0.55;

/** The values of a place, and how many items there are. */
export type PlacesOf = readonly (readonly [pointer: string, shape: ScalarShape])[];

/** Which places of an item hold which of its fields: the best pairs first, each place and field once. */
export function matchFields(
  prefix: string,
  places: PlacesOf,
  keys: ReadonlyMap<string, ReadonlySet<string>> = new Map(),
): readonly FieldMatch[] {
  const fields = FIELDS.filter(
    ({ path, owner }) =>
      path.startsWith(prefix) &&
      !path.slice(prefix.length).includes("[]") &&
      (owner !== "document" || path === "notes"),
  );
  const pairs: FieldMatch[] = [];
  for (const [at, shape] of places) {
    const meaning = meaningOf(at);
    const raws = shape.leaves.map(({ raw }) => raw);
    for (const { path, refersTo } of fields) {
      const fit = valueFit(path, raws);
      if (fit === -1) continue;
      const field = path.slice(prefix.length);
      const name = likeness(meaningOfField(field), meaning);
      const last = likeness(
        meaningOfField(field.slice(field.lastIndexOf(".") + 1)),
        meaningOf(at.slice(at.lastIndexOf("/"))),
      );
      const known = referenceFit(refersTo === undefined ? undefined : keys.get(refersTo), raws);
      const isSure = FIELD_WORDS[path] !== undefined && fit === 1 && isDistinctive(raws);
      if (known === -1 || (name === 0 && last === 0 && !isSure)) continue;
      // Words that only this field may hold speak louder than names.
      const words = isSure ? 0.6 : fit * 0.3;
      const exact = at.slice(at.lastIndexOf("/") + 1).replace(/^@/, "") === field ? 0.3 : 0;
      pairs.push({ field, path, at, shape, score: name * 0.7 + last * 0.3 + words + known * 0.25 + exact });
    }
  }
  return bestPairs(pairs.filter(({ score }) => score >= LEAST_SCORE));
}

/** Words that hardly mean anything else: "linkwitz-riley", but not "L". */
function isDistinctive(raws: readonly string[]): boolean {
  const words = new Set(realValues(raws));
  return [...words].some((word) => word.length >= 5);
}

function bestPairs(pairs: readonly FieldMatch[]): readonly FieldMatch[] {
  const places = new Set<string>();
  const fields = new Set<string>();
  return [...pairs]
    .sort((a, b) => b.score - a.score)
    .filter(({ at, field }) => {
      if (places.has(at) || fields.has(field)) return false;
      places.add(at);
      fields.add(field);
      return true;
    });
}

/** Whether values are keys of the list to which a field refers: 1 yes, 0 not known, -1 no. */
function referenceFit(known: ReadonlySet<string> | undefined, raws: readonly string[]): number {
  const real = realValues(raws);
  if (known === undefined || known.size === 0 || real.length === 0) return 0;
  const share = real.filter((raw) => known.has(raw.trim())).length / real.length;
  return share === 1 ? 1 : share > 0.5 ? 0 : -1;
}
