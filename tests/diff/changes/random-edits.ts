import fc from "fast-check";
import {
  type Configuration,
  fieldAt,
  type Json,
  type JsonObject,
  LIST_KEYS,
} from "../../../src/model/index.ts";
import { schemaParts } from "./schema-leaves.ts";

/** Edits as a person or another tool could make them, drawn by chance; every result keeps its keys unique. */
export type Edit =
  | { readonly kind: "set"; readonly pick: number; readonly by: number }
  | { readonly kind: "remove-member" | "remove-item" | "copy-item" | "rename-item"; readonly pick: number }
  | { readonly kind: "shuffle"; readonly pick: number; readonly by: number }
  | { readonly kind: "exchange-feeds"; readonly pick: number; readonly by: number };

const pick = fc.nat({ max: 1_000_000 });

export const edit: fc.Arbitrary<Edit> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ kind: fc.constant("set" as const), pick, by: fc.integer({ min: 1, max: 9 }) }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constantFrom("remove-member", "remove-item", "copy-item", "rename-item" as const),
      pick,
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({ kind: fc.constantFrom("shuffle", "exchange-feeds" as const), pick, by: pick }),
  },
) as fc.Arbitrary<Edit>;

type Draft = Record<string, Json>;

interface Spot {
  readonly holder: Draft | Json[];
  readonly name: string | number;
  readonly field: string;
}

/** Every value below a value, with what holds it. */
function spotsOf(value: Json, field: string): Spot[] {
  if (Array.isArray(value)) {
    const list = value as Json[];
    return list.flatMap((item, index) => [
      { holder: list, name: index, field: `${field}[]` },
      ...spotsOf(item, `${field}[]`),
    ]);
  }
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, child]) => {
    const here = field === "" ? name : `${field}.${name}`;
    return [{ holder: value as Draft, name, field: here }, ...spotsOf(child, here)];
  });
}

function valueIn({ holder, name }: Spot): Json {
  return (holder as Draft)[name]!;
}

const isKeyedItem = ({ field }: Spot): boolean =>
  field.endsWith("[]") && ["id", "channelId"].includes(LIST_KEYS[field.slice(0, -2)] ?? "");
const OPTIONAL =
  /\.(limiter|highPass|lowPass|fir|graphic|parametric|waitMs|faderMark|reason|distanceM|geometry|enabled)$/;

function choose<T>(items: readonly T[], number: number): T | undefined {
  return items.length === 0 ? undefined : items[number % items.length];
}

let serial = 0;

function carryOut(draft: Draft, change: Edit): void {
  const spots = spotsOf(draft, "");
  if (change.kind === "set") {
    const spot = choose(spots.filter(isLeaf), change.pick);
    if (spot !== undefined) (spot.holder as Draft)[spot.name] = otherValue(spot, change.by);
  } else if (change.kind === "remove-member") {
    const spot = choose(
      spots.filter(({ field }) => OPTIONAL.test(field)),
      change.pick,
    );
    if (spot !== undefined) delete (spot.holder as Draft)[spot.name];
  } else if (change.kind === "exchange-feeds") {
    const outputs = draft.outputs as Draft[];
    const [a, b] = [choose(outputs, change.pick), choose(outputs, change.by)];
    if (a !== undefined && b !== undefined) [a.feeds, b.feeds] = [b.feeds!, a.feeds!];
  } else if (change.kind === "shuffle") {
    const lists = spots.map(valueIn).filter((value) => Array.isArray(value) && typeof value[0] === "object");
    shuffle((choose(lists, change.pick) ?? []) as Json[], change.by);
  } else {
    editItem(choose(spots.filter(isKeyedItem), change.pick), change.kind);
  }
}

function isLeaf({ field, holder, name }: Spot): boolean {
  const leaf = fieldAt(field);
  const isKey =
    name === "id" || (name === "channelId" && /(equalizations|calibration|mix).*channelId$/.test(field));
  // The kind of a union's branch goes with its other members.
  const isBranch = name === "kind" && leaves.get(field)?.enum === undefined;
  return leaf !== undefined && !isKey && !isBranch && typeof (holder as Draft)[name] !== "object";
}

const { leaves } = schemaParts();

/** Another value of the same sort: one of the choices where the schema lists them. */
function otherValue(spot: Spot, by: number): Json {
  const value = valueIn(spot);
  if (typeof value === "number") return Math.round((value + by / 10) * 1000) / 1000;
  if (typeof value === "boolean") return !value;
  const choices = leaves.get(spot.field)?.enum ?? [];
  return choose(choices, Math.max(0, choices.indexOf(String(value))) + by) ?? `${String(value)}~${by}`;
}

function editItem(spot: Spot | undefined, kind: "remove-item" | "copy-item" | "rename-item"): void {
  if (spot === undefined) return;
  const list = spot.holder as Json[];
  const key = LIST_KEYS[spot.field.slice(0, -2)]!;
  const fresh = `new-${serial++}`;
  if (kind === "remove-item") list.splice(spot.name as number, 1);
  else if (kind === "copy-item")
    list.splice(spot.name as number, 0, { ...(structuredClone(valueIn(spot)) as JsonObject), [key]: fresh });
  else (valueIn(spot) as Draft)[key] = fresh;
}

function shuffle(list: Json[], seed: number): void {
  for (let index = list.length - 1, chance = seed + 1; index > 0; index--) {
    chance = (chance * 48_271) % 2_147_483_647;
    const other = chance % (index + 1);
    [list[index], list[other]] = [list[other]!, list[index]!];
  }
}

/** A configuration with edits carried out one after the other; the original stays as it is. */
export function withEdits(document: Configuration, edits: readonly Edit[]): Configuration {
  const draft = structuredClone(document) as unknown as Draft;
  for (const change of edits) carryOut(draft, change);
  return draft as unknown as Configuration;
}
