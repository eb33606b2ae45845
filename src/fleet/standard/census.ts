import {
  asJson,
  type Configuration,
  itemKey,
  type Json,
  type JsonObject,
  type KeyedItem,
} from "../../model/index.ts";
import { HOUSE_FIELDS, type HouseField } from "./house-fields.ts";

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

/** What a census has counted, as plain data: can be sent to another thread and added to another census. */
export interface CensusCounts {
  readonly screens: number;
  readonly profileIds: readonly string[];
  readonly places: readonly Counting[];
}

/** So many screens are named for each value; more are counted. Keeps the memory bounded. */
const MOST_NAMED = 50;

/** How often a value occurs, and where. */
export interface Tally {
  readonly value: Json | undefined;
  count: number;
  readonly screens: string[];
}

/** Values by what tells them apart: themselves, or their JSON where they are no scalars. */
export type Tallies = Map<Json | undefined, Tally>;

/** What screens have at one place. */
export interface Counting {
  readonly path: readonly string[];
  readonly field: string;
  /** Position of its field among all, by which places are put in order. */
  readonly order: number;
  readonly isList: boolean;
  screens: number;
  /** Of a list: its items. */
  readonly values: Tallies;
  /** Of a list: its items together. */
  readonly sets: Tallies;
}

/** A place that was met, with those inside. */
interface Node {
  readonly path: readonly string[];
  readonly inside: Map<string, Node>;
  counting?: Counting;
}

/**
 * Counts what screens have at every place that the house owns. Screens are taken one by one and not kept, so that ten
 * thousand need no more memory than the different values that they have.
 */
export class Census {
  screens = 0;
  /** Profiles of their units. */
  readonly profileIds = new Set<string>();
  readonly #root: Node = { path: [], inside: new Map() };
  readonly #countings: Counting[] = [];

  /** @param name as it is to be named: "lantern-mill/screen-1" */
  add(configuration: Configuration, name: string): void {
    this.screens += 1;
    this.profileIds.add(configuration.unit.profileId);
    this.#visit(HOUSE_FIELDS, asJson(configuration), { node: this.#root, name });
  }

  /** Adds what another census has counted of other screens. */
  addCounts({ screens, profileIds, places }: CensusCounts): void {
    this.screens += screens;
    for (const id of profileIds) this.profileIds.add(id);
    for (const other of places) {
      const node = other.path.reduce(inside, this.#root);
      const own = this.#countingAt(node, other);
      own.screens += other.screens;
      for (const [key, tally] of other.values) add(own.values, key, tally);
      for (const [key, tally] of other.sets) add(own.sets, key, tally);
    }
  }

  counts(): CensusCounts {
    return { screens: this.screens, profileIds: [...this.profileIds], places: this.#countings };
  }

  places(): readonly PlaceCensus[] {
    return this.#inOrder(false).map(({ path, field, screens, values }) => ({
      path,
      field,
      screens,
      values: frequentFirst(values),
    }));
  }

  lists(): readonly ListCensus[] {
    return this.#inOrder(true).map(({ path, field, screens, values, sets }) => ({
      path,
      field,
      screens,
      items: [...values.values()],
      sets: frequentFirst(sets),
    }));
  }

  #visit(
    fields: HouseField,
    value: Json | undefined,
    { node, name }: { readonly node: Node; readonly name: string },
  ): void {
    if (fields.isLeaf || fields.isHeldList) {
      const { field, order } = fields;
      const own = this.#countingAt(node, { field, order, isList: fields.isHeldList });
      own.screens += 1;
      if (fields.isLeaf) tally(own.values, value, name);
      else {
        const keys = itemsOf(value).map((item) => String(item[fields.key ?? "id"]));
        for (const key of keys) tally(own.values, key, name);
        tally(own.sets, [...keys].sort(), name);
      }
    }
    if (fields.item !== undefined) {
      for (const [index, item] of itemsOf(value).entries()) {
        const part = fields.key === undefined ? String(index) : (itemKey(item as KeyedItem) ?? "");
        this.#visit(fields.item, item, { node: inside(node, part), name });
      }
    }
    for (const [member, below] of fields.members) {
      const own = memberOf(value, member);
      this.#visit(below, own, { node: inside(node, member), name });
    }
  }

  #countingAt(node: Node, of: Pick<Counting, "field" | "order" | "isList">): Counting {
    if (node.counting === undefined) {
      const { field, order, isList } = of;
      const none = { screens: 0, values: new Map(), sets: new Map() };
      node.counting = { path: node.path, field, order, isList, ...none };
      this.#countings.push(node.counting);
    }
    return node.counting;
  }

  /** Field by field, and within each as the places were first met. */
  #inOrder(isList: boolean): readonly Counting[] {
    return this.#countings.filter((item) => item.isList === isList).sort((a, b) => a.order - b.order);
  }
}

function inside(node: Node, part: string): Node {
  let found = node.inside.get(part);
  if (found === undefined) {
    found = { path: [...node.path, part], inside: new Map() };
    node.inside.set(part, found);
  }
  return found;
}

function itemsOf(value: Json | undefined): readonly JsonObject[] {
  return Array.isArray(value) ? (value as readonly JsonObject[]) : [];
}

function memberOf(value: Json | undefined, name: string): Json | undefined {
  const isInside = typeof value === "object" && value !== null && Object.hasOwn(value, name);
  return isInside ? (value as JsonObject)[name] : undefined;
}

function tally(tallies: Tallies, value: Json | undefined, name: string): void {
  const key = typeof value === "object" && value !== null ? JSON.stringify(value) : value;
  const known = tallies.get(key);
  if (known === undefined) tallies.set(key, { value, count: 1, screens: [name] });
  else {
    known.count += 1;
    if (known.screens.length < MOST_NAMED) known.screens.push(name);
  }
}

function add(tallies: Tallies, key: Json | undefined, { value, count, screens }: Tally): void {
  const known = tallies.get(key);
  if (known === undefined) {
    tallies.set(key, { value, count, screens: [...screens] });
    return;
  }
  known.count += count;
  known.screens.push(...screens.slice(0, MOST_NAMED - known.screens.length));
}

function frequentFirst(values: Tallies): readonly ValueCount[] {
  return [...values.values()].sort((a, b) => b.count - a.count);
}
