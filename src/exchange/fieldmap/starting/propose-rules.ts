import { type Conversion, fieldAt, LIST_KEYS, type MapRule } from "../../../model/index.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { guessConversion } from "./guess-conversion.ts";
import { type Habits, habitsOf } from "./habits.ts";
import { meaningsOf } from "./known-words.ts";
import { type FieldMatch, matchFields, type PlacesOf } from "./match-fields.ts";
import { type KnownKeys, type ListMatch, ListMatcher, queryFor } from "./match-lists.ts";
import type { NumbersMatch } from "./match-numbers.ts";
import { listsIn, type Shape, scalarsIn } from "./shape.ts";

/** A rule with what speaks for it. */
export interface ProposedRule {
  /** `turned`: the value becomes another: another unit of measure, another word. */
  readonly kind: "list" | "value" | "turned";
  /** Field or list of the configuration. */
  readonly field: string;
  /** Where it stands, from the root; "*" for every item. */
  readonly at: string;
  readonly words: string;
}

export interface Proposal {
  readonly rules: readonly MapRule[];
  readonly words: readonly ProposedRule[];
}

/** Rules for an export of a shape: lists first, since their keys tell which values refer to them. */
export function proposeRules(root: Shape, decimal: "." | ","): Proposal {
  const first = matchAll(root, new Map());
  const keys = keysIn(first.lists);
  const { lists, fields } = matchAll(root, keys);
  const observed = [
    ...[...fields, ...everyField(lists)].map(({ path, at, shape }) => ({
      ...{ field: path, name: at },
      raws: shape.leaves.map(({ raw }) => raw),
    })),
    ...everyNumbers(lists).map(({ path, at, raws }) => ({ field: path, name: at, raws })),
  ];
  const writer = new RuleWriter(habitsOf(observed, decimal));
  const rules = [
    ...fields.map((match) => writer.value(match, 1, "")),
    ...lists.map((match) => writer.list(match, "")),
  ];
  return { rules, words: writer.words };
}

interface Matches {
  readonly lists: readonly ListMatch[];
  readonly fields: readonly FieldMatch[];
}

function matchAll(root: Shape, keys: KnownKeys): Matches {
  const matcher = new ListMatcher(root, keys);
  const lists = matcher.lists("", root);
  // A list of one that is no list of the configuration: a table with one row.
  const single: PlacesOf = listsIn(root).flatMap(([at, list]) =>
    matcher.isTaken(list) || list.items.length !== 1 || list.by === "name"
      ? []
      : scalarsIn(list.item, `${at}/0`),
  );
  return { lists, fields: matchFields("", [...scalarsIn(root), ...single], keys) };
}

function keysIn(lists: readonly ListMatch[]): KnownKeys {
  const found = new Map<string, ReadonlySet<string>>();
  const visit = (match: ListMatch): void => {
    if (match.key.values.size > 0) found.set(match.path, match.key.values);
    for (const inner of match.lists) visit(inner);
  };
  for (const match of lists) visit(match);
  return found;
}

function everyField(lists: readonly ListMatch[]): readonly FieldMatch[] {
  return lists.flatMap((match) => [...match.fields, ...everyField(match.lists)]);
}

function everyNumbers(lists: readonly ListMatch[]): readonly NumbersMatch[] {
  return lists.flatMap((match) => [...match.numbers, ...everyNumbers(match.lists)]);
}

class RuleWriter {
  readonly words: ProposedRule[] = [];
  readonly #habits: Habits;

  constructor(habits: Habits) {
    this.#habits = habits;
  }

  value({ field, path, at, shape }: FieldMatch, items: number, around: string): MapRule {
    const raws = shape.leaves.map(({ raw }) => raw);
    const { words, absent, as } = guessConversion({ field: path, name: at, raws }, this.#habits);
    const optional = shape.leaves.length < items ? { optional: true } : {};
    const told = words === "" ? "" : `, ${words}`;
    this.#tell(
      words === "" ? "value" : "turned",
      path,
      around + at,
      `'${(raws[0] ?? "").slice(0, 24)}' may be the ${fieldAt(path)?.label ?? field}${told}`,
    );
    return {
      ...{ kind: "value", field, at },
      ...(as === undefined ? {} : { as }),
      ...(absent === undefined ? {} : { absent: absent as [string, ...string[]] }),
      ...optional,
    };
  }

  list(match: ListMatch, around: string): MapRule {
    const { list, path, at, shape, key, where } = match;
    const place = `${where.length > 0 ? "" : around}${at}/*`;
    const why =
      where.length > 0 ? `; rows that name their item at ${where.map((one) => one.at).join(", ")}` : "";
    this.#tell("list", path, place, `${shape.items.length} items, told apart by ${key.words}${why}`);
    const keyField = LIST_KEYS[path] as string;
    const own = match.fields.filter(({ field, at: own }) => field !== keyField && own !== key.at);
    const keyRule: MapRule = key.rule ?? { kind: "value", field: keyField, at: key.at! };
    const inner: MapRule[] = [
      keyRule,
      ...this.#slotRules(match),
      ...this.#labelRules(match),
      ...own.map((field) => this.value(field, shape.items.length, place)),
      ...match.numbers.map((numbers) => this.#numbers(numbers, place)),
      ...match.lists.map((one) => this.list(one, place)),
    ];
    return {
      ...{ kind: "list", list, each: queryFor(at, shape) },
      ...(where.length > 0 ? { within: "root", where: [...where] as never } : {}),
      ...(isOptionalList(path) ? { optional: true } : {}),
      rules: inner as [MapRule, ...MapRule[]],
    };
  }

  /** Keys of channels are mostly their labels too. */
  #labelRules({ path, fields, key }: ListMatch): readonly MapRule[] {
    const isOpen = path === "channels" && !fields.some(({ field, at }) => field === "label" && at !== key.at);
    if (!isOpen || meaningsOf("channels[].label", [...key.values]) === undefined) return [];
    const isLabel = [...key.values].every((value) => FIELD_WORDS["channels[].label"]!.includes(value));
    return isLabel ? [{ kind: "join", field: "label", text: "{id}" }] : [];
  }

  /** Numbers that are names of presets are their slots. */
  #slotRules({ path, shape, fields, key }: ListMatch): readonly MapRule[] {
    const isFree =
      !fields.some(({ field, at }) => field === "slot" && at !== key.at) && key.rule === undefined;
    const isNumbered = shape.by === "name" && shape.names.every((name) => /^\d+$/.test(name));
    return path === "presets" && isFree && isNumbered ? [{ kind: "value", field: "slot", segment: 0 }] : [];
  }

  #numbers({ field, path, at, separator, raws }: NumbersMatch, around: string): MapRule {
    const { as, words } = guessConversion({ field: path, name: at, raws }, this.#habits);
    this.#tell(
      words === "" ? "value" : "turned",
      path,
      around + at,
      `${raws.length} numbers may be this list${words === "" ? "" : `, ${words}`}`,
    );
    const conversion: { as?: Conversion } = as === undefined ? {} : { as };
    if (separator !== undefined)
      return { kind: "numbers", field, at, separator, ...conversion, optional: true };
    const each = queryFor(at, {
      kind: "list",
      by: "place",
      item: { kind: "scalar", leaves: [] },
      names: [],
      items: [],
    });
    return { kind: "numbers", field, each, ...conversion, optional: true };
  }

  #tell(kind: ProposedRule["kind"], field: string, at: string, words: string): void {
    this.words.push({ kind, field, at, words });
  }
}

/** Lists that a configuration need not have. */
function isOptionalList(path: string): boolean {
  return path.endsWith(".parametric") || path.startsWith("calibration.");
}
