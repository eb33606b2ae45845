import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Plan, planMigration } from "../../../src/migrate/plan/index.ts";
import { type Configuration, itemKey, type KeyedItem, type UnitProfile } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { configurations, oldProfiles, profiles } from "./arbitraries.ts";
import { NO_FITS } from "./decide.ts";

const RUNS = runs(12, 30);

/** Lists whose order says nothing. Filters stand in processing order, ways from the lowest band up: these stay. */
const FREE_LISTS = new Set([
  "sources",
  "channels",
  "equalizations",
  "presets",
  "routing",
  "loudspeakers",
  "outputs",
  "mix",
  "automation",
  "interfaces",
  "connectors",
  "microphonePositions",
]);

/** The value with every free list in an order that the numbers of `seed` choose. */
function shuffled<T>(value: T, next: () => number, name = ""): T {
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => shuffled(item, next));
    if (FREE_LISTS.has(name)) {
      for (let index = items.length - 1; index > 0; index -= 1) {
        const other = Math.floor(next() * (index + 1));
        [items[index], items[other]] = [items[other], items[index]];
      }
    }
    return items as T;
  }
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, member]) => [key, shuffled(member, next, key)]),
  ) as T;
}

/** The value with every keyed list in the order of its keys. */
function inKeyOrder<T>(value: T): T {
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => inKeyOrder(item));
    const key = (item: unknown) =>
      typeof item === "object" && item !== null ? (itemKey(item as KeyedItem) ?? "") : "";
    return items.sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0)) as T;
  }
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, member]) => [name, inKeyOrder(member)])) as T;
}

/** The plan without what must follow the order of the old document: the document itself and its hash. */
function told(plan: Plan): unknown {
  const { configuration, configurationSha256: _hash, ...rest } = plan;
  return { ...rest, configuration: inKeyOrder(configuration) };
}

function randomFrom(seed: number): () => number {
  let state = seed || 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** Other ids for the items that a person named; connectors belong to the unit. */
function renamed(
  old: Configuration,
  next: () => number,
): { configuration: Configuration; back: Map<string, string> } {
  const ids = [
    ...old.sources.map(({ id }) => id),
    ...old.equalizations.map(({ id }) => id),
    ...old.presets.map(({ id }) => id),
    ...old.loudspeakers.map(({ id }) => id),
    ...old.outputs.map(({ id }) => id),
    ...old.automation.map(({ id }) => id),
  ];
  const back = new Map<string, string>();
  const forth = new Map(
    ids.map((id) => {
      let name = "";
      do name = `n${Math.floor(next() * 1e6)}`;
      while (back.has(name));
      back.set(name, id);
      return [id, name];
    }),
  );
  const rename = (value: unknown): unknown => {
    if (typeof value === "string") return forth.get(value) ?? value;
    if (Array.isArray(value)) return value.map(rename);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, rename(member)]));
  };
  return { configuration: rename(old) as Configuration, back };
}

/** The plan with the old ids, claims in their order. */
function withOldIds(plan: Plan, back: ReadonlyMap<string, string>): Plan {
  const text = JSON.stringify(plan).replace(/\bn\d+\b/g, (name) => back.get(name) ?? name);
  const named = JSON.parse(text) as Plan;
  return {
    ...named,
    items: named.items.map((item) => ({ ...item, claims: [...item.claims].sort() })),
  };
}

describe("the order of lists", () => {
  it("changes nothing in a plan", () => {
    fc.assert(
      fc.property(
        configurations,
        oldProfiles,
        profiles("new"),
        fc.integer({ min: 1, max: 2 ** 31 - 2 }),
        (old: Configuration, from: UnitProfile, to: UnitProfile, seed) => {
          const next = randomFrom(seed);
          const plan = planMigration(old, { from, to, eqFits: NO_FITS });
          const other = planMigration(shuffled(old, next), {
            from: shuffled(from, next),
            to: shuffled(to, next),
            eqFits: NO_FITS,
          });
          expect(told(other)).toEqual(told(plan));
        },
      ),
      { numRuns: RUNS },
    );
  });

  it("nor do ids", () => {
    fc.assert(
      fc.property(
        configurations,
        oldProfiles,
        profiles("new"),
        fc.integer({ min: 1, max: 2 ** 31 - 2 }),
        (old, from, to, seed) => {
          const { configuration, back } = renamed(old, randomFrom(seed));
          const plan = planMigration(old, { from, to, eqFits: NO_FITS });
          const other = planMigration(configuration, { from, to, eqFits: NO_FITS });
          expect(told(withOldIds(other, back))).toEqual(told(plan));
        },
      ),
      { numRuns: RUNS },
    );
  });

  it("equal arguments give equal bytes", () => {
    fc.assert(
      fc.property(configurations, oldProfiles, profiles("new"), (old, from, to) => {
        const once = JSON.stringify(planMigration(old, { from, to, eqFits: NO_FITS }));
        const again = JSON.stringify(planMigration(structuredClone(old), { from, to, eqFits: NO_FITS }));
        expect(again).toBe(once);
      }),
      { numRuns: runs(4) },
    );
  });
});
