import {
  LIST_KEYS,
  type ListRule,
  type MapRule,
  type NumbersRule,
  type ValueRule,
} from "../../model/index.ts";
import { conditionOf, holds } from "./condition.ts";
import { type Circumstances, type Converter, converterOf, type Scalar } from "./conversions/index.ts";
import { type Draft, groupOf, lookUp, OPTIONAL_GROUPS } from "./draft.ts";
import { type ExportItem, ItemFinder, type Scope } from "./export-items.ts";
import { fieldType } from "./field-type.ts";
import type {
  Binding,
  FoundItem,
  FoundList,
  Interpretation,
  MisfitValue,
  MissingPlace,
  Origin,
} from "./interpretation.ts";
import type { LoadedMap } from "./load-map.ts";
import { type ExportTree, type Leaf, pointerPart } from "./tree.ts";

/** Goes over an export by the rules of a map. `around` is what holds where the export says nothing of it. */
export function interpret(tree: ExportTree, loaded: LoadedMap, around: Circumstances): Interpretation {
  const run = new Run(tree, loaded, around);
  const draft: Draft = {};
  const item = { pointer: "", value: tree.root, location: [] };
  run.scope(basicsFirst(loaded.map.rules), {
    item,
    draft,
    at: "",
    path: [],
    prefix: "",
    known: draft,
    parent: undefined,
  });
  const { bindings, missing, lists, misfits, used, origins, reached } = run;
  return { draft, bindings, missing, lists, misfits, used, origins, reached };
}

const BASICS = new Set(["unit.sampleRateHz", "screen.temperatureC"]);

/** What samples and metres rest on is read ahead of everything that may rest on it. */
function basicsFirst(rules: readonly MapRule[]): readonly MapRule[] {
  const isBasic = (rule: MapRule) => rule.kind !== "list" && BASICS.has(rule.field);
  return [...rules.filter(isBasic), ...rules.filter((rule) => !isBasic(rule))];
}

/** The converter of a rule at a field. Samples and metres rest on what is known of the unit and the room. */
export function converterAt(
  rule: ValueRule | NumbersRule,
  field: string,
  loaded: LoadedMap,
  known: Circumstances,
): Converter {
  return converterOf(rule.as, { type: fieldType(field), decimal: loaded.map.decimal ?? ".", known });
}

/** What of a configuration conversions rest on. */
export function circumstancesOf(configuration: unknown): Circumstances {
  const { unit, screen } = configuration as {
    readonly unit?: { readonly sampleRateHz?: number };
    readonly screen?: { readonly temperatureC?: number };
  };
  return { sampleRateHz: unit?.sampleRateHz, temperatureC: screen?.temperatureC };
}

const MOST_MISFITS = 1000;

class Run {
  readonly bindings: Binding[] = [];
  readonly missing: MissingPlace[] = [];
  readonly lists: FoundList[] = [];
  readonly misfits: MisfitValue[] = [];
  readonly used = new Set<string>();
  readonly origins = new Map<string, Origin>();
  readonly reached = new Set<MapRule>();
  readonly #around: Circumstances;
  readonly #tree: ExportTree;
  readonly #loaded: LoadedMap;
  readonly #items: ItemFinder;
  readonly #converters = new Map<MapRule, Converter>();
  /** Above 0 while an unused item is looked at: nothing of it can be wrong, nothing of it is kept. */
  #dormant = 0;

  constructor(tree: ExportTree, loaded: LoadedMap, around: Circumstances) {
    this.#around = around;
    this.#tree = tree;
    this.#loaded = loaded;
    this.#items = new ItemFinder(tree, loaded);
  }

  scope(rules: readonly MapRule[], scope: Scope): void {
    const plain = rules.filter((rule) => conditionOf(rule) === undefined);
    this.#fields(plain, scope);
    if (plain.length < rules.length)
      this.#fields(
        rules.filter((rule) => conditionOf(rule) !== undefined),
        scope,
      );
    for (const rule of rules) {
      if (rule.kind !== "join") continue;
      const text = rule.text.replace(/\{([A-Za-z.]+)\}/g, (_all, field: string) =>
        String(lookUp(scope.draft, field) ?? ""),
      );
      this.#put(rule, rule.field, text, scope, { kind: "joined" });
    }
    for (const rule of rules) if (rule.kind === "list") this.#list(rule, scope);
  }

  #fields(rules: readonly MapRule[], scope: Scope): void {
    const absent: ValueRule[] = [];
    for (const rule of rules) if (rule.kind === "value" && !this.#value(rule, scope)) absent.push(rule);
    for (const rule of rules) if (rule.kind === "numbers") this.#numbers(rule, scope);
    for (const rule of absent) this.#given(rule, rule.default, scope);
    for (const rule of rules) {
      if (rule.kind === "fixed" && this.#holds(rule, scope)) this.#given(rule, rule.value, scope);
    }
  }

  #holds(rule: MapRule, { draft }: Scope): boolean {
    return holds(rule, (field) => lookUp(draft, field));
  }

  /** Reads one value; false where there is none. */
  #value(rule: ValueRule, scope: Scope): boolean {
    const field = scope.prefix + rule.field;
    if (rule.when !== undefined && !this.#holds(rule, scope)) {
      this.#idle(rule, field, scope);
      return true;
    }
    if (rule.segment !== undefined) return this.#segment(rule, rule.segment, scope);
    const place = placeOf(rule, scope.item);
    const leaf = this.#tree.leaves.get(place);
    if (leaf === undefined) {
      if (rule.optional !== true && rule.default === undefined) {
        this.#misfit(place, undefined, field, "the export has no such value");
      } else if (rule.root !== true) this.#missing(rule, field, scope);
      return false;
    }
    this.used.add(leaf.pointer);
    const { names } = this.#loaded.parts(rule.field);
    this.bindings.push({ kind: "value", rule, leaf, item: scope.path, names, field });
    if (rule.absent?.includes(leaf.raw.trim()) === true) return false;
    const converter = this.#converter(rule, field, scope);
    const value = converter.read(leaf.raw);
    if (value === undefined) {
      this.#misfit(leaf.pointer, leaf.start, field, `'${leaf.raw.slice(0, 40)}' is not ${converter.expects}`);
      return true;
    }
    this.#put(rule, rule.field, value, scope, { kind: "export", pointer: leaf.pointer });
    return true;
  }

  /** A place whose rule does not hold now: it may on writing, when the field that decides has become another. */
  #idle(rule: ValueRule, field: string, scope: Scope): void {
    if (rule.at === undefined) return;
    const leaf = this.#tree.leaves.get(placeOf(rule, scope.item));
    if (leaf === undefined) {
      if (rule.root !== true) this.#missing(rule, field, scope);
      return;
    }
    this.used.add(leaf.pointer);
    const { names } = this.#loaded.parts(rule.field);
    this.bindings.push({ kind: "value", rule, leaf, item: scope.path, names, field });
  }

  #segment(rule: ValueRule, segment: number, scope: Scope): boolean {
    const part = scope.item.location.at(-1 - segment);
    const field = scope.prefix + rule.field;
    const value = part === undefined ? undefined : this.#converter(rule, field, scope).read(String(part));
    if (value === undefined) {
      this.#misfit(scope.item.pointer, undefined, field, "the place in the export gives no such value");
      return true;
    }
    this.#put(rule, rule.field, value, scope, { kind: "place", pointer: scope.item.pointer });
    return true;
  }

  #numbers(rule: NumbersRule, scope: Scope): void {
    const field = `${scope.prefix}${rule.field}[]`;
    const converter = this.#converter(rule, field, scope);
    const { names, pointer } = this.#loaded.parts(rule.field);
    const numbers: number[] = [];
    const leaves = this.#numberLeaves(rule, scope);
    leaves.forEach((leaf, i) => {
      this.used.add(leaf.pointer);
      const place = { rule, leaf, item: scope.path, names, field };
      const whole = rule.each === undefined;
      this.bindings.push(whole ? { kind: "numbers", ...place } : { kind: "number", index: i, ...place });
      const raws = whole ? splitNumbers(leaf.raw, rule.separator!) : [leaf.raw];
      for (const raw of raws) {
        const value = converter.read(raw);
        if (typeof value === "number") numbers.push(value);
        else
          this.#misfit(leaf.pointer, leaf.start, field, `'${raw.slice(0, 40)}' is not ${converter.expects}`);
      }
    });
    if (numbers.length > 0) {
      const target = groupOf(scope.draft, rule.field, true)!;
      target.group[target.name] = numbers;
      numbers.forEach((_n, i) => {
        this.#origin(`${scope.at}${pointer}/${i}`, {
          kind: "export",
          pointer: (leaves[i] ?? leaves[0])!.pointer,
        });
      });
      this.#reach(rule);
    } else if (rule.optional !== true) {
      this.#misfit(scope.item.pointer + (rule.at ?? ""), undefined, field, "the export has no such numbers");
    } else if (leaves.length === 0 && rule.at !== undefined) this.#missing(rule, field, scope);
  }

  #missing(rule: ValueRule | NumbersRule, field: string, { item, path }: Scope): void {
    const { names } = this.#loaded.parts(rule.field);
    this.missing.push({ rule, at: item.pointer, item: path, names, field });
  }

  #numberLeaves(rule: NumbersRule, scope: Scope): readonly Leaf[] {
    const pointers =
      rule.each === undefined
        ? [scope.item.pointer + rule.at!]
        : this.#items.found(rule.each, scope.item).map(({ pointer }) => pointer);
    return pointers.flatMap((pointer) => this.#tree.leaves.get(pointer) ?? []);
  }

  #given(rule: MapRule & { readonly field: string }, value: Scalar | undefined, scope: Scope): void {
    if (value === undefined) return;
    const groups = rule.field.split(".").slice(0, -1);
    const optional = groups.some((name) => OPTIONAL_GROUPS.has(name));
    if (optional && groupOf(scope.draft, rule.field, false) === undefined) return;
    this.#put(rule, rule.field, value, scope, { kind: "map" });
  }

  #list(rule: ListRule, scope: Scope): void {
    const path = scope.prefix + rule.list;
    const key = LIST_KEYS[path]!;
    const drafts: Draft[] = [];
    const at = scope.at + this.#loaded.parts(rule.list).pointer;
    const listPath = [...scope.path, ...rule.list.split(".")];
    const items: FoundItem[] = [];
    this.lists.push({ rule, path: listPath, around: scope.item.pointer, items });
    for (const item of this.#items.itemsOf(rule, scope)) {
      const draft: Draft = {};
      for (const { at: matched } of rule.where ?? []) this.used.add(item.pointer + matched);
      const dormant = this.#isUnused(rule, item);
      const keyPath = [...listPath, this.#keyOf(rule, key, { item, scope, path })];
      items.push({ path: keyPath, pointer: item.pointer });
      const presence =
        rule.unused === undefined ? undefined : this.#tree.leaves.get(item.pointer + rule.unused.at);
      if (presence !== undefined)
        this.bindings.push({ kind: "presence", rule, leaf: presence, item: keyPath });
      if (dormant) this.#dormant += 1;
      const inner = { item, draft, at: `${at}/${drafts.length}`, path: keyPath, prefix: `${path}[].` };
      this.scope(rule.rules, { ...inner, known: scope.known, parent: scope });
      if (dormant) this.#dormant -= 1;
      else drafts.push(draft);
    }
    if (drafts.length === 0 && rule.optional === true) return;
    const target = groupOf(
      scope.draft,
      rule.list,
      !OPTIONAL_GROUPS.has(rule.list.split(".")[0]!) || drafts.length > 0,
    );
    if (target === undefined) return;
    target.group[target.name] = drafts;
    if (drafts.length > 0) this.#reach(rule);
  }

  /** The key of an item ahead of all else, so that every binding of it can name it. */
  #keyOf(
    rule: ListRule,
    key: string,
    { item, scope, path }: { readonly item: ExportItem; readonly scope: Scope; readonly path: string },
  ): string {
    const own = rule.rules.find((inner) => inner.kind !== "list" && inner.field === key);
    if (own?.kind === "value" && own.default === undefined) {
      const leaf = own.at === undefined ? undefined : this.#tree.leaves.get(placeOf(own, item));
      const raw = own.segment === undefined ? leaf?.raw : item.location.at(-1 - own.segment);
      const read =
        raw === undefined ? undefined : this.#converter(own, `${path}[].${key}`, scope).read(String(raw));
      return String(read ?? "");
    }
    const run = new Run(this.#tree, this.#loaded, this.#around);
    run.#dormant = 1;
    const draft: Draft = {};
    const needed = rule.rules.filter(
      (inner) => inner.kind !== "list" && inner.kind !== "numbers" && isNeededFor(key, inner, rule.rules),
    );
    const inner = { item, draft, at: "", path: [], prefix: `${path}[].` };
    run.scope(needed, { ...inner, known: scope.known, parent: scope });
    return String(draft[key] ?? "");
  }

  #isUnused(rule: ListRule, item: ExportItem): boolean {
    if (rule.unused === undefined) return false;
    const leaf = this.#tree.leaves.get(item.pointer + rule.unused.at);
    if (leaf === undefined) return false;
    this.used.add(leaf.pointer);
    return rule.unused.values.includes(leaf.raw.trim());
  }

  #converter(rule: ValueRule | NumbersRule, field: string, scope: Scope): Converter {
    const cached = this.#converters.get(rule);
    if (cached !== undefined) return cached;
    const own = circumstancesOf(scope.known);
    const known = {
      sampleRateHz: own.sampleRateHz ?? this.#around.sampleRateHz,
      temperatureC: own.temperatureC ?? this.#around.temperatureC,
    };
    const converter = converterAt(rule, field, this.#loaded, known);
    this.#converters.set(rule, converter);
    return converter;
  }

  #put(rule: MapRule, field: string, value: Scalar, scope: Scope, origin: Origin): void {
    const target = groupOf(scope.draft, field, true)!;
    target.group[target.name] = value;
    this.#origin(scope.at + this.#loaded.parts(field).pointer, origin);
    this.#reach(rule);
  }

  #origin(pointer: string, origin: Origin): void {
    if (this.#dormant === 0) this.origins.set(pointer, origin);
  }

  #reach(rule: MapRule): void {
    if (this.#dormant === 0) this.reached.add(rule);
  }

  #misfit(pointer: string, offset: number | undefined, field: string, words: string): void {
    if (this.#dormant > 0 || this.misfits.length >= MOST_MISFITS) return;
    this.misfits.push({ pointer, field, words, ...(offset === undefined ? {} : { offset }) });
  }
}

/** Whether a rule has part in the key of an item: it gives the key, or a field from which the key is joined. */
function isNeededFor(key: string, rule: MapRule, rules: readonly MapRule[]): boolean {
  if (rule.kind === "list") return false;
  if (rule.field === key) return true;
  return rules.some(
    (other) => other.kind === "join" && other.field === key && other.text.includes(`{${rule.field}}`),
  );
}

/** Where the value of a rule stands for an item: inside it, or in a place beside those of the other items. */
function placeOf({ at = "", root }: ValueRule, item: ExportItem): string {
  if (root !== true) return item.pointer + at;
  return at.replaceAll("{}", () => pointerPart(item.location.at(-1) ?? "").slice(1));
}

export function splitNumbers(text: string, separator: string): readonly string[] {
  const parts = separator.trim() === "" ? text.trim().split(/\s+/) : text.split(separator);
  return text.trim() === "" ? [] : parts;
}
