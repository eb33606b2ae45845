import {
  fieldAt,
  fieldOf,
  type Json,
  type JsonObject,
  keyMember,
  LIST_KEYS,
  type Standard,
  type StandardLine,
  sortOfField,
} from "../../model/index.ts";
import { checkAgreement } from "./agreement.ts";
import { checkTriggers } from "./agreement-of-triggers.ts";
import { moreSpelledOut, type Pattern } from "./pattern.ts";
import { badLine, unknownPlace } from "./standard-errors.ts";

/** How a single value is held. */
export type LeafHold =
  | { readonly kind: "exactly"; readonly value: Json }
  | { readonly kind: "within"; readonly min: number; readonly max: number }
  | { readonly kind: "left-to-screen" };

/** How the items of a list are held. */
export type ListHold =
  | { readonly kind: "these-only" | "at-least"; readonly items: ReadonlyMap<string, JsonObject> }
  | { readonly kind: "left-to-screen" };

/** A line of a standard made ready. */
export interface HoldRule<Hold> {
  readonly pattern: Pattern;
  /** "presets[].levelDb" */
  readonly field: string;
  readonly hold: Hold;
  /** Why, in the standard's words. */
  readonly reason?: string;
  /** Position of its line in the standard. */
  readonly line: number;
}

/** A line about a single value. */
export type HeldLeaf = HoldRule<LeafHold>;
/** A line about the items of a list. */
export type HeldList = HoldRule<ListHold>;

/** A standard made ready: items of lists spelled out, rules by field, the one that counts first. */
export interface CompiledStandard {
  readonly standard: Standard;
  /** @internal */
  readonly leaves: ReadonlyMap<string, readonly HeldLeaf[]>;
  /** @internal */
  readonly lists: ReadonlyMap<string, readonly HeldList[]>;
}

/**
 * Makes a standard ready and checks what its schema cannot say.
 *
 * @throws BoothkeepError standard.unknown-place, standard.bad-line
 */
export function compileStandard(standard: Standard): CompiledStandard {
  const leaves: HeldLeaf[] = [];
  const lists: HeldList[] = [];
  for (const [line, item] of standard.lines.entries()) {
    const compiled = compileLine(item, line);
    leaves.push(...compiled.leaves);
    lists.push(...compiled.lists);
  }
  const compiled = { standard, leaves: byField(leaves), lists: byField(lists) };
  checkAgreement(leaves, lists);
  checkTriggers(compiled);
  return compiled;
}

function byField<Hold>(rules: readonly HoldRule<Hold>[]): ReadonlyMap<string, readonly HoldRule<Hold>[]> {
  const map = new Map<string, HoldRule<Hold>[]>();
  for (const rule of rules) map.set(rule.field, [...(map.get(rule.field) ?? []), rule]);
  for (const list of map.values())
    list.sort((a, b) => moreSpelledOut(a.pattern, b.pattern) || b.line - a.line);
  return map;
}

interface Rules {
  readonly leaves: HeldLeaf[];
  readonly lists: HeldList[];
}

interface At {
  readonly pattern: Pattern;
  readonly line: number;
  readonly reason: { readonly reason?: string };
}

function compileLine(item: StandardLine, line: number): Rules {
  const pattern = item.place.split("/");
  const field = fieldOf(pattern);
  const sort = sortOfField(field);
  const rule = { pattern, field, line, ...(item.reason !== undefined && { reason: item.reason }) };
  if (sort === "unknown") throw unknownPlace(item.place, line);
  if (item.hold === "left-to-screen") {
    const hold = { kind: item.hold };
    if (sort === "leaf") return { leaves: [{ ...rule, hold }], lists: [] };
    if (sort === "keyed-list") return { leaves: [], lists: [{ ...rule, hold }] };
    throw badLine(
      line,
      `'${item.place}' is neither one value nor a list of items.`,
      "Name the values below it.",
    );
  }
  if (item.hold === "these-only" || item.hold === "at-least") {
    if (sort !== "keyed-list")
      throw badLine(line, `'${item.place}' is no list of items.`, "Hold it exactly.");
    const at = { pattern, line, reason: item.reason === undefined ? {} : { reason: item.reason } };
    return compileList(item.items as readonly JsonObject[], field, item.hold, at);
  }
  if (sort !== "leaf")
    throw badLine(line, `'${item.place}' is no single value.`, "Name the values below it.");
  if (item.hold === "exactly") {
    return { leaves: [{ ...rule, hold: { kind: "exactly", value: item.value } }], lists: [] };
  }
  if (item.min > item.max)
    throw badLine(line, "The least value is above the greatest.", "Exchange the limits.");
  return { leaves: [{ ...rule, hold: { kind: "within", min: item.min, max: item.max } }], lists: [] };
}

function compileList(
  items: readonly JsonObject[],
  field: string,
  kind: "these-only" | "at-least",
  { pattern, line, reason }: At,
): Rules {
  const member = keyMember(field);
  const byKey = new Map<string, JsonObject>();
  const rules: Rules = { leaves: [], lists: [] };
  for (const item of items) {
    const key = item[member];
    if (typeof key !== "string" || key === "" || key.includes("/") || byKey.has(key)) {
      throw badLine(
        line,
        `Every item of '${pattern.join("/")}' needs a '${member}' of its own.`,
        "Give it one.",
      );
    }
    byKey.set(key, item);
    for (const [name, value] of Object.entries(item)) {
      if (name === member) continue;
      const at = { pattern: [...pattern, key, name], line, reason };
      const inner = compileValue(value, `${field}[].${name}`, at);
      rules.leaves.push(...inner.leaves);
      rules.lists.push(...inner.lists);
    }
  }
  // Of a list that is not the house's, only the standard's own line can hold which items there are.
  if (isOfTheHouse(`${field}[].${member}`) || !field.includes("[]")) {
    rules.lists.push({ pattern, field, line, ...reason, hold: { kind, items: byKey } });
  }
  return rules;
}

function compileValue(value: Json, field: string, at: At): Rules {
  const { pattern, line, reason } = at;
  const sort = sortOfField(field);
  if (sort === "unknown") throw unknownPlace(pattern.join("/"), line);
  if (sort === "keyed-list" && Array.isArray(value)) {
    return compileList(value as readonly JsonObject[], field, "these-only", at);
  }
  const inside = (
    members: readonly (readonly [string, Json])[],
    fieldIn: (name: string) => string,
  ): Rules => {
    const parts = members.map(([name, member]) =>
      compileValue(member, fieldIn(name), { ...at, pattern: [...pattern, name] }),
    );
    return { leaves: parts.flatMap(({ leaves }) => leaves), lists: parts.flatMap(({ lists }) => lists) };
  };
  if (LIST_KEYS[field] === "index" && Array.isArray(value)) {
    return inside(
      (value as readonly Json[]).map((member, index) => [String(index), member] as const),
      () => `${field}[]`,
    );
  }
  if (sort === "group" && typeof value === "object" && value !== null && !Array.isArray(value)) {
    return inside(Object.entries(value), (name) => `${field}.${name}`);
  }
  if (sort === "leaf" && (typeof value !== "object" || value === null)) {
    // What rooms and units decide serves only where the item is added.
    if (!isOfTheHouse(field)) return { leaves: [], lists: [] };
    return { leaves: [{ pattern, field, line, ...reason, hold: { kind: "exactly", value } }], lists: [] };
  }
  throw badLine(
    line,
    `What stands at '${pattern.join("/")}' cannot be held.`,
    "Compare it with a configuration.",
  );
}

function isOfTheHouse(field: string): boolean {
  return fieldAt(field)?.owner === "house";
}
