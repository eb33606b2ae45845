import { isDeepStrictEqual } from "node:util";
import {
  type Configuration,
  FIELDS,
  type FieldOwner,
  fieldAt,
  type Json,
  type JsonObject,
  keyMember,
  placeAt,
  placesOf,
} from "../../model/index.ts";
import type { CompiledStandard, HeldLeaf, HeldList, LeafHold } from "./compile.ts";
import { onUnitScale } from "./fader-scale.ts";
import { ruleAt } from "./rule-at.ts";
import type { Settle, Settled } from "./unit-steps.ts";

/** Where a screen differs from a standard. */
export interface DeviationAt {
  /** By ids. */
  readonly path: readonly string[];
  readonly field: string;
  readonly owner: FieldOwner;
  readonly reason?: string;
}

/** A value that the standard holds and the screen has otherwise. */
export interface ValueDeviation extends DeviationAt {
  readonly kind: "value";
  readonly rule: HeldLeaf;
  /** How it is held here: fader marks on the unit's own scale. */
  readonly hold: LeafHold;
  /** Undefined: nothing stands there. */
  readonly actual: Json | undefined;
  /** What the screen would have: the value, or the nearest limit, on the unit's steps. Null: nothing. */
  readonly wanted: Settled;
}

/** An item that the standard asks for and the screen lacks. */
export interface MissingItem extends DeviationAt {
  readonly kind: "missing-item";
  readonly rule: HeldList;
  readonly item: JsonObject;
}

/** An item that a list held as "these and no other" should not have. */
export interface ExtraItem extends DeviationAt {
  readonly kind: "extra-item";
  readonly rule: HeldList;
  readonly item: Json;
}

/** Where a screen is not as the standard has it. */
export type Deviation = ValueDeviation | MissingItem | ExtraItem;

/** Every place where a configuration differs from a standard, in the order of the signal flow. */
export function deviationsFrom(
  configuration: Configuration,
  compiled: CompiledStandard,
  settle: Settle,
): readonly Deviation[] {
  const lists = [...compiled.lists.keys()].flatMap((field) => listDeviations(configuration, compiled, field));
  const leaves = [...compiled.leaves.keys()].flatMap((field) =>
    placesOf(configuration, field).flatMap(({ path, value }): readonly ValueDeviation[] => {
      const rule = ruleAt(compiled.leaves, field, path) as HeldLeaf | undefined;
      if (rule === undefined) return [];
      const hold = onUnitScale(rule.hold, path, compiled.standard, settle.fader);
      if (holds(hold, value, path, settle)) return [];
      const wanted = settle(path, wantedValue(hold, value));
      return [{ kind: "value", rule, hold, ...factsOf(field, path, rule), actual: value, wanted }];
    }),
  );
  return [...lists, ...leaves].sort((a, b) => orderOf(a.field) - orderOf(b.field));
}

/**
 * Whether a deviation of one configuration is there in another one too: the same as looking for it among
 * {@link deviationsFrom}, without looking at anything else.
 */
export function deviatesAt(configuration: Configuration, deviation: Deviation, settle: Settle): boolean {
  const { path, rule } = deviation;
  if (deviation.kind === "value") {
    const place = placeAt(configuration, path);
    return place !== undefined && !holds(deviation.hold, place.value, path, settle);
  }
  const place = placeAt(configuration, path.slice(0, -1));
  if (place === undefined) return false;
  const items = Array.isArray(place.value) ? (place.value as readonly JsonObject[]) : [];
  const isThere = items.some((item) => String(item[keyMember(rule.field)]) === path.at(-1));
  return isThere === (deviation.kind === "extra-item");
}

function factsOf(field: string, path: readonly string[], { reason }: { readonly reason?: string }) {
  return {
    path,
    field,
    owner: ownerOf(field),
    ...(reason !== undefined && { reason }),
  };
}

function ownerOf(field: string): FieldOwner {
  return (fieldAt(field) ?? fieldAt(`${field}[].${keyMember(field)}`))?.owner ?? "unit";
}

/**
 * Whose it is to add an item, where that is not who owns the items. The house may bring an EQ set along for its presets, but
 * never changes one that is there. A program channel has loudspeakers, and levels found by measuring.
 */
const NEW_ITEM_OWNER: Readonly<Record<string, FieldOwner>> = { equalizations: "house", channels: "unit" };

function listDeviations(
  configuration: Configuration,
  { lists }: CompiledStandard,
  field: string,
): readonly (MissingItem | ExtraItem)[] {
  return placesOf(configuration, field).flatMap(({ path: list, value }) => {
    const rule = ruleAt(lists, field, list) as HeldList | undefined;
    if (rule === undefined || rule.hold.kind === "left-to-screen") return [];
    const { kind, items } = rule.hold;
    const there = new Map(
      (Array.isArray(value) ? (value as readonly JsonObject[]) : []).map((item) => [
        String(item[keyMember(field)]),
        item,
      ]),
    );
    const at = (key: string) => factsOf(field, [...list, key], rule);
    const missing = [...items].filter(([key]) => !there.has(key));
    const extra = kind === "these-only" ? [...there].filter(([key]) => !items.has(key)) : [];
    return [
      ...missing.map(([key, item]) => ({
        kind: "missing-item" as const,
        rule,
        item,
        ...at(key),
        ...(NEW_ITEM_OWNER[field] !== undefined && { owner: NEW_ITEM_OWNER[field] }),
      })),
      ...extra.map(([key, item]) => ({
        kind: "extra-item" as const,
        rule,
        item,
        ...at(key),
        ...(field === "channels" && { owner: "unit" as const }),
      })),
    ];
  });
}

const SLACK = 1e-9;

/**
 * Whether a value is as it is held; a number that the unit had to round counts as the number.
 *
 * @param hold fader marks on the unit's own scale
 */
export function holds(
  hold: LeafHold,
  value: Json | undefined,
  path: readonly string[],
  settle: Settle,
): boolean {
  switch (hold.kind) {
    case "left-to-screen":
      return true;
    case "exactly": {
      if (hold.value === null) return value === undefined;
      if (isSame(value, hold.value)) return true;
      const settled = settle(path, hold.value);
      return settled.reach === "rounded" && isSame(value, settled.value);
    }
    case "within": {
      if (typeof value !== "number") return value === undefined;
      if (value >= hold.min - SLACK && value <= hold.max + SLACK) return true;
      const settled = settle(path, wantedValue(hold, value));
      return settled.reach === "rounded" && isSame(value, settled.value);
    }
  }
}

function isSame(value: Json | undefined, wanted: Json): boolean {
  if (typeof value === "number" && typeof wanted === "number") return Math.abs(value - wanted) <= SLACK;
  return isDeepStrictEqual(value, wanted);
}

/** The value that comes nearest to the screen's own and is as the standard holds it. */
function wantedValue(hold: LeafHold, value: Json | undefined): Json {
  if (hold.kind === "exactly") return hold.value;
  if (hold.kind === "within" && typeof value === "number")
    return Math.min(Math.max(value, hold.min), hold.max);
  return value ?? null;
}

const ORDER = new Map(FIELDS.map(({ path }, index) => [path, index]));

/** Lists stand where their first member does. */
function orderOf(field: string): number {
  return ORDER.get(field) ?? (ORDER.get(`${field}[].${keyMember(field)}`) ?? FIELDS.length) - 0.5;
}
