import { BoothkeepError } from "../../base/errors/index.ts";
import {
  type Conversion,
  FIELDS,
  type FieldMap,
  fieldAt,
  LIST_KEYS,
  type ListRule,
  type MapRule,
  type NumbersRule,
  nearestName,
  type ValueRule,
} from "../../model/index.ts";
import { conditionOf } from "./condition.ts";
import { FIELD_WORDS } from "./field-words.ts";
import { type PathExpression, pathExpression } from "./path-expression.ts";

/** Something that a person should know of a map before it is used. */
export interface MapNotice {
  /** JSON Pointer of the rule in the map. */
  readonly pointer: string;
  /**
   * `one-way`: a value is read but cannot be written back, or only in part. `list-fixed`: items cannot be added or taken
   * away. `key-fixed`: a key follows from the place and cannot be changed. `not-in-export`: the map itself gives the value.
   */
  readonly kind: "one-way" | "list-fixed" | "key-fixed" | "not-in-export";
  readonly words: string;
}

/** A map whose paths and rules are known to be usable. */
export interface LoadedMap {
  readonly map: FieldMap;
  /** What cannot be inverted, found on loading. */
  readonly notices: readonly MapNotice[];
  /** Paths of fields (see FIELDS) that some rule gives. */
  readonly bound: ReadonlySet<string>;
  /** A query of the map, compiled. */
  readonly query: (each: string) => PathExpression;
  /** The names of a rule's field, taken apart once. */
  readonly parts: (field: string) => FieldParts;
}

/** A field of a rule: "highPass.order". */
export interface FieldParts {
  readonly names: readonly string[];
  /** JSON Pointer from the item on. */
  readonly pointer: string;
}

/**
 * Checks a map against the configuration's fields and compiles its queries.
 *
 * @throws BoothkeepError field-map.unusable with the place in the map
 */
export function loadFieldMap(map: FieldMap): LoadedMap {
  const loading = new Loading(map);
  loading.rules(map.rules, "/rules", "");
  loading.conditions();
  for (const [i, { each }] of (map.ignore ?? []).entries()) loading.compile(each, `/ignore/${i}/each`);
  if (map.source.kind === "table" && map.source.header === "by-mark" && map.source.mark === undefined) {
    throw unusable("Header rows by mark need a mark.", "/source/mark");
  }
  const { notices, bound, queries } = loading;
  return { map, notices, bound, query: (each) => queries.get(each)!, parts: partsOnce() };
}

function partsOnce(): (field: string) => FieldParts {
  const known = new Map<string, FieldParts>();
  return (field) => {
    const found = known.get(field);
    if (found !== undefined) return found;
    const names = field.split(".");
    const parts = { names, pointer: names.map((name) => `/${name}`).join("") };
    known.set(field, parts);
    return parts;
  };
}

class Loading {
  readonly notices: MapNotice[] = [];
  readonly bound = new Set<string>();
  readonly queries = new Map<string, PathExpression>();
  readonly #map: FieldMap;
  readonly #conditional = new Set<string>();
  readonly #conditions: { readonly path: string; readonly at: string }[] = [];

  constructor(map: FieldMap) {
    this.#map = map;
  }

  /** What conditions rest on is given without one: else it would depend on the order of the rules. */
  conditions(): void {
    for (const { path, at } of this.#conditions) {
      if (this.bound.has(path) && !this.#conditional.has(path)) continue;
      if (fieldAt(path) === undefined) throw unknownField(path, at);
      throw unusable(`No rule without a condition gives '${path}', by which this one is decided.`, at);
    }
  }

  rules(rules: readonly MapRule[], at: string, prefix: string): void {
    for (const [i, rule] of rules.entries()) {
      if (rule.kind === "list") this.#list(rule, `${at}/${i}`, prefix);
      else this.#rule(rule, `${at}/${i}`, prefix);
    }
  }

  compile(each: string, at: string): void {
    if (this.queries.has(each)) return;
    const expression = pathExpression(each);
    if (typeof expression === "string") throw unusable(expression, at);
    this.queries.set(each, expression);
  }

  #rule(rule: Exclude<MapRule, ListRule>, at: string, prefix: string): void {
    const path = `${prefix}${rule.field}${rule.kind === "numbers" ? "[]" : ""}`;
    if (fieldAt(path) === undefined) throw unknownField(path, `${at}/field`);
    const when = conditionOf(rule);
    if (this.bound.has(path) && (when === undefined || !this.#conditional.has(path)))
      throw unusable(`Two rules give '${path}'.`, `${at}/field`);
    if (when !== undefined) {
      this.#conditional.add(path);
      this.#conditions.push({ path: prefix + when.field, at: `${at}/when/field` });
    }
    this.bound.add(path);
    if (rule.kind === "value") this.#value(rule, at, path);
    else if (rule.kind === "numbers") this.#numbers(rule, at);
    else if (rule.kind === "fixed")
      this.#notice("not-in-export", at, `'${path}' is always the map's own value.`);
  }

  #value(rule: ValueRule, at: string, path: string): void {
    if ((rule.at === undefined) === (rule.segment === undefined)) {
      throw unusable("A value has either 'at' or 'segment'.", at);
    }
    this.#conversion(rule.as, `${at}/as`, path);
    if (rule.segment !== undefined) {
      this.#notice(
        "key-fixed",
        at,
        `'${path}' follows from the place in the export: a new item gets it by its name, in a list by its number.`,
      );
    } else if (rule.readOnly === true) {
      this.#notice("one-way", at, `'${path}' is read only, as the map says.`);
    }
  }

  #numbers(rule: NumbersRule, at: string): void {
    if ((rule.each === undefined) === (rule.at === undefined)) {
      throw unusable("Numbers have either 'each' or 'at' with a separator.", at);
    }
    if (rule.at !== undefined && rule.separator === undefined) {
      throw unusable("Numbers of one text need a separator.", at);
    }
    if (rule.separator !== undefined && rule.separator === (this.#map.decimal ?? ".")) {
      throw unusable("The separator of numbers is the decimal sign.", `${at}/separator`);
    }
    if (rule.each !== undefined) this.compile(rule.each, `${at}/each`);
    this.#conversion(rule.as, `${at}/as`, rule.field);
  }

  #list(rule: ListRule, at: string, prefix: string): void {
    const path = `${prefix}${rule.list}`;
    const key = LIST_KEYS[path];
    if (key !== "id" && key !== "channelId") throw unknownField(path, `${at}/list`);
    this.compile(rule.each, `${at}/each`);
    this.rules(rule.rules, `${at}/rules`, `${path}[].`);
    if (!this.bound.has(`${path}[].${key}`)) {
      throw unusable(
        `No rule gives '${key}', by which the items of '${path}' are told apart.`,
        `${at}/rules`,
      );
    }
    if (rule.fixed === true) {
      this.#notice("list-fixed", at, `Items of '${path}' are always the same, as the map says.`);
    } else if (rule.rules.some((own) => own.kind === "value" && own.root === true)) {
      const words = `Items of '${path}' have values in several places, so none can be added or taken away.`;
      this.#notice("list-fixed", at, words);
    }
  }

  #conversion(as: Conversion | undefined, at: string, path: string): void {
    if (as?.kind === "number" && as.factor === 0) throw unusable("A factor is 0.", `${at}/factor`);
    if (as?.kind === "table") this.#table(as.points, at, path);
    if (as?.kind !== "choice") return;
    const { choices } = as;
    const doubled = choices.find(
      (choice, i) => choices.findIndex((other) => other.export === choice.export) < i,
    );
    if (doubled !== undefined)
      throw unusable(`The choice '${doubled.export}' stands twice.`, `${at}/choices`);
    const wordless = (FIELD_WORDS[path] ?? []).filter((word) => choices.every(({ value }) => value !== word));
    if (wordless.length > 0) {
      const words = `The export has no word for ${wordless.slice(0, 6).join(", ")} of '${path}'; it cannot be written.`;
      this.#notice("one-way", at, words);
    }
    if (new Set(choices.map(({ value }) => value)).size < choices.length) {
      const words = `Several words of the export mean one value of '${path}'; a changed value is written as the first.`;
      this.#notice("one-way", at, words);
    }
  }

  #table(
    points: readonly { readonly export: number; readonly value: number }[],
    at: string,
    path: string,
  ): void {
    const steps = points
      .slice(1)
      .map((point, i) => [point.export - points[i]!.export, point.value - points[i]!.value]);
    if (steps.some(([export_]) => export_! <= 0)) throw unusable("The points do not ascend.", `${at}/points`);
    if (steps.every(([, value]) => value! > 0) || steps.every(([, value]) => value! < 0)) return;
    this.#notice(
      "one-way",
      at,
      `The table of '${path}' has one value at several places; the first is written.`,
    );
  }

  #notice(kind: MapNotice["kind"], pointer: string, words: string): void {
    this.notices.push({ kind, pointer, words });
  }
}

function unusable(words: string, pointer: string): BoothkeepError {
  return new BoothkeepError("field-map.unusable", words, {
    place: { pointer },
    next: "Correct this place of the map.",
  });
}

function unknownField(path: string, pointer: string): BoothkeepError {
  const known = [...FIELDS.map((field) => field.path), ...Object.keys(LIST_KEYS)];
  const near = nearestName(path, known);
  return new BoothkeepError("field-map.unusable", `A configuration has no field '${path}'.`, {
    place: { pointer },
    next: near === undefined ? "Correct the name of the field." : `Did you mean '${near}'?`,
  });
}
