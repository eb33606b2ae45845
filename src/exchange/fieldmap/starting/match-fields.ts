import { FIELDS, type Field } from "../../../model/index.ts";
import { fieldType } from "../field-type.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { alignRows } from "./align-row.ts";
import { realValues, valueFit } from "./field-values.ts";
import { evidenceOf } from "./match-by-values.ts";
import { unitFit, unitInName } from "./quantities.ts";
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
    for (const { path, refersTo, unit: unitOf } of fields) {
      const fit = valueFit(path, raws);
      if (fit === -1) continue;
      const field = path.slice(prefix.length);
      const name = likeness(meaningOfField(field), meaning);
      const last = likeness(
        meaningOfField(field.slice(field.lastIndexOf(".") + 1)),
        meaningOf(at.slice(at.lastIndexOf("/"))),
      );
      const unit = unitFit(path, unitOf, unitInName(at));
      if (unit === -1 && fieldType(path) === "number") continue;
      const known = referenceFit(refersTo === undefined ? undefined : keys.get(refersTo), raws);
      const isMute = /mute$/.test(path) && fit > 0 && raws.some((raw) => /^(?:un)?mut/i.test(raw));
      const isSure = isMute || (FIELD_WORDS[path] !== undefined && fit === 1 && isDistinctive(raws));
      if (known !== -1 && meaning.words.length === 0) {
        const score = evidenceOf(path, raws, fit, known);
        if (score > 0) pairs.push({ field, path, at, shape, score });
        continue;
      }
      const distinct = FIELD_WORDS[path] !== undefined && fit > 0.5 ? new Set(realValues(raws)).size : 0;
      if (known === -1 || (name === 0 && last === 0 && !isSure && distinct < 3)) continue;
      // Words that only this field may hold speak louder than names.
      const words = isSure || distinct >= 3 ? 0.6 : distinct > 1 ? 0.4 : fit * 0.3;
      const exact = at.slice(at.lastIndexOf("/") + 1).replace(/^@/, "") === field ? 0.3 : 0;
      pairs.push({
        field,
        path,
        at,
        shape,
        score: name * 0.7 + last * 0.3 + words + known * 0.25 + exact + unit * 0.1,
      });
    }
  }
  const reference = ({ refersTo }: Field, raws: readonly string[]) =>
    referenceFit(refersTo === undefined ? undefined : keys.get(refersTo), raws);
  const aligned = alignRows(prefix, places, fields, reference);
  // Of a place that has its turn in a row, its name says only of what the row is.
  const inRow = new Set(aligned.map(({ at }) => at).filter((at) => /[A-Za-z]\d*$/.test(at)));
  const named = pairs.filter(({ at, field }) => !inRow.has(at) || isOwnName(field, at));
  for (const { at, shape, path, value } of aligned) {
    named.push({ field: path.slice(prefix.length), path, at, shape, score: LEAST_SCORE + value * 0.15 });
  }
  return bestPairs(named.filter(({ score }) => score >= LEAST_SCORE));
}

/** Whether the name of a place speaks of the field itself, not only of the group that it is in. */
function isOwnName(field: string, at: string): boolean {
  const name = meaningOf(at.slice(at.lastIndexOf("/")));
  return likeness(meaningOfField(field.slice(field.lastIndexOf(".") + 1)), name) > 0;
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
