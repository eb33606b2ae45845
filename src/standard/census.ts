import type { Json, JsonObject } from "../changes/index.ts";
import { type Configuration, FIELDS, fieldAt, LIST_KEYS } from "../model/index.ts";
import { keyMember, sortOfField } from "./field-path.ts";
import { placesOf } from "./places.ts";

/** How often one value stands at a place. */
export interface ValueCount {
  /** Undefined: nothing stands there. */
  readonly value: Json | undefined;
  readonly count: number;
  /** Names of the first screens that have it. */
  readonly screens: readonly string[];
}

/** What screens have at one place. */
export interface PlaceCensus {
  readonly path: readonly string[];
  readonly field: string;
  /** Screens that have the part in which the place is. */
  readonly screens: number;
  /** The most frequent first. */
  readonly values: readonly ValueCount[];
}

/** Which items screens have in one list. */
export interface ListCensus {
  readonly path: readonly string[];
  readonly field: string;
  readonly screens: number;
  /** Items by key, in the order in which they were first met. */
  readonly items: readonly ValueCount[];
  /** The whole lists of keys, the most frequent first. */
  readonly sets: readonly ValueCount[];
}

/** So many screens are named for each value; more are counted. Keeps the memory bounded. */
const MOST_NAMED = 50;

const HOUSE_LEAVES = FIELDS.filter(
  ({ path, owner }) => owner === "house" && !/\[\]\.(id|channelId)$/.test(path),
);
const HOUSE_LISTS = Object.keys(LIST_KEYS).filter(
  (field) =>
    sortOfField(field) === "keyed-list" && fieldAt(`${field}[].${keyMember(field)}`)?.owner === "house",
);

interface Tally {
  readonly value: Json | undefined;
  count: number;
  readonly screens: string[];
}

interface Counting {
  readonly path: readonly string[];
  readonly field: string;
  screens: number;
  readonly values: Map<string, Tally>;
  readonly sets: Map<string, Tally>;
}

/**
 * Counts what screens have at every place that the house owns. Screens are taken one by one and not kept, so that ten
 * thousand need no more memory than the different values that they have.
 */
export class Census {
  screens = 0;
  readonly #leaves = new Map<string, Counting>();
  readonly #lists = new Map<string, Counting>();

  /** @param name as it is to be named: "lantern-mill/screen-1" */
  add(configuration: Configuration, name: string): void {
    this.screens += 1;
    for (const { path: field } of HOUSE_LEAVES) {
      for (const { path, value } of placesOf(configuration, field)) {
        const place = counting(this.#leaves, path, field);
        place.screens += 1;
        tally(place.values, value, name);
      }
    }
    for (const field of HOUSE_LISTS) {
      for (const { path, value } of placesOf(configuration, field)) {
        const place = counting(this.#lists, path, field);
        const keys = (Array.isArray(value) ? (value as readonly JsonObject[]) : []).map((item) =>
          String(item[keyMember(field)]),
        );
        place.screens += 1;
        for (const key of keys) tally(place.values, key, name);
        tally(place.sets, [...keys].sort(), name);
      }
    }
  }

  places(): readonly PlaceCensus[] {
    return [...this.#leaves.values()].map(({ path, field, screens, values }) => ({
      path,
      field,
      screens,
      values: frequentFirst(values),
    }));
  }

  lists(): readonly ListCensus[] {
    return [...this.#lists.values()].map(({ path, field, screens, values, sets }) => ({
      path,
      field,
      screens,
      items: [...values.values()],
      sets: frequentFirst(sets),
    }));
  }
}

function counting(map: Map<string, Counting>, path: readonly string[], field: string): Counting {
  const key = path.join("/");
  const known = map.get(key) ?? { path, field, screens: 0, values: new Map(), sets: new Map() };
  map.set(key, known);
  return known;
}

function tally(map: Map<string, Tally>, value: Json | undefined, name: string): void {
  const key = value === undefined ? "" : JSON.stringify(value);
  const known = map.get(key) ?? { value, count: 0, screens: [] };
  known.count += 1;
  if (known.screens.length < MOST_NAMED) known.screens.push(name);
  map.set(key, known);
}

function frequentFirst(values: ReadonlyMap<string, Tally>): readonly ValueCount[] {
  return [...values.values()].sort((a, b) => b.count - a.count);
}
