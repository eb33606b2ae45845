import { LIST_KEYS, type ListRule, type MapRule, type NumbersRule, type ValueRule } from "../model/index.ts";
import { type Circumstances, type Converter, converterOf, type Scalar } from "./conversions/index.ts";
import { fieldType } from "./field-type.ts";
import type { LoadedMap } from "./load-map.ts";
import { type ExportTree, type Leaf, pointerPart, type TreeValue } from "./tree.ts";

/** A configuration while it is built. Only names of FIELDS ever become members. */
export interface Draft {
  [name: string]: Scalar | Draft | Scalar[] | Draft[];
}

/** Where a value of a configuration is looked up: members by name, items of lists by "=key". */
export type KeyPath = readonly string[];

/** What ties one place of the export to one place of the configuration. */
export type Binding =
  | ({ readonly kind: "value"; readonly rule: ValueRule; readonly field: string } & BoundPlace)
  | ({
      readonly kind: "number";
      readonly rule: NumbersRule;
      readonly field: string;
      readonly index: number;
    } & BoundPlace)
  | ({ readonly kind: "numbers"; readonly rule: NumbersRule; readonly field: string } & BoundPlace)
  | { readonly kind: "presence"; readonly rule: ListRule; readonly leaf: Leaf; readonly item: KeyPath };

interface BoundPlace {
  readonly leaf: Leaf;
  /** The item in which the field stands; empty for the configuration itself. */
  readonly item: KeyPath;
  /** The field's names from there on. */
  readonly names: readonly string[];
}

/** Where a field's value comes from. */
export type Origin =
  | { readonly kind: "export"; readonly pointer: string }
  | { readonly kind: "place"; readonly pointer: string }
  | { readonly kind: "map" }
  | { readonly kind: "joined" };

/** A value of the export that does not fit. */
export interface MisfitValue {
  /** JSON Pointer in the export's tree. */
  readonly pointer: string;
  readonly offset?: number;
  /** Path of the field. */
  readonly field: string;
  readonly words: string;
}

export interface Interpretation {
  readonly draft: Draft;
  readonly bindings: readonly Binding[];
  readonly misfits: readonly MisfitValue[];
  /** Pointers of the export's values that a rule looked at. */
  readonly used: ReadonlySet<string>;
  /** By JSON Pointer in the draft. */
  readonly origins: ReadonlyMap<string, Origin>;
  /** Pointers of rules that gave at least one value. */
  readonly reached: ReadonlySet<MapRule>;
}

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
  const { bindings, misfits, used, origins, reached } = run;
  return { draft, bindings, misfits, used, origins, reached };
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

interface ExportItem {
  readonly pointer: string;
  readonly value: TreeValue;
  readonly location: readonly (string | number)[];
}

interface Scope {
  readonly item: ExportItem;
  readonly draft: Draft;
  /** JSON Pointer of the draft. */
  readonly at: string;
  readonly path: KeyPath;
  /** "outputs[].filters[]." */
  readonly prefix: string;
  /** The whole draft. */
  readonly known: Draft;
  readonly parent: Scope | undefined;
}

/** Parts of a configuration that may be missing as a whole: no fixed value or default calls them into being. */
const OPTIONAL_GROUPS = new Set(
  "highPass lowPass limiter fir graphic emergencyMute nonSync paging boothMonitor hearingImpaired narration geometry calibration".split(
    " ",
  ),
);

const MOST_MISFITS = 1000;

class Run {
  readonly bindings: Binding[] = [];
  readonly misfits: MisfitValue[] = [];
  readonly used = new Set<string>();
  readonly origins = new Map<string, Origin>();
  readonly reached = new Set<MapRule>();
  readonly #around: Circumstances;
  readonly #tree: ExportTree;
  readonly #loaded: LoadedMap;
  readonly #found = new Map<ListRule, readonly ExportItem[] | ReadonlyMap<string, readonly ExportItem[]>>();
  readonly #converters = new Map<MapRule, Converter>();
  /** Above 0 while an unused item is looked at: nothing of it can be wrong, nothing of it is kept. */
  #dormant = 0;

  constructor(tree: ExportTree, loaded: LoadedMap, around: Circumstances) {
    this.#around = around;
    this.#tree = tree;
    this.#loaded = loaded;
  }

  scope(rules: readonly MapRule[], scope: Scope): void {
    const absent: ValueRule[] = [];
    for (const rule of rules) if (rule.kind === "value" && !this.#value(rule, scope)) absent.push(rule);
    for (const rule of rules) if (rule.kind === "numbers") this.#numbers(rule, scope);
    for (const rule of absent) this.#given(rule, rule.default, scope);
    for (const rule of rules) if (rule.kind === "fixed") this.#given(rule, rule.value, scope);
    for (const rule of rules) {
      if (rule.kind !== "join") continue;
      const text = rule.text.replace(/\{([A-Za-z.]+)\}/g, (_all, field: string) =>
        String(lookUp(scope.draft, field) ?? ""),
      );
      this.#put(rule, rule.field, text, scope, { kind: "joined" });
    }
    for (const rule of rules) if (rule.kind === "list") this.#list(rule, scope);
  }

  /** Reads one value; false where there is none. */
  #value(rule: ValueRule, scope: Scope): boolean {
    const field = scope.prefix + rule.field;
    if (rule.segment !== undefined) return this.#segment(rule, rule.segment, scope);
    const leaf = this.#tree.leaves.get(scope.item.pointer + rule.at!);
    if (leaf === undefined) {
      if (rule.optional !== true && rule.default === undefined) {
        this.#misfit(scope.item.pointer + rule.at!, undefined, field, "the export has no such value");
      }
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
    }
  }

  #numberLeaves(rule: NumbersRule, scope: Scope): readonly Leaf[] {
    const pointers =
      rule.each === undefined
        ? [scope.item.pointer + rule.at!]
        : this.#run(rule.each, scope.item).map(({ pointer }) => pointer);
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
    for (const item of this.#itemsOf(rule, scope)) {
      const draft: Draft = {};
      for (const { at: matched } of rule.where ?? []) this.used.add(item.pointer + matched);
      const dormant = this.#isUnused(rule, item);
      const keyPath = [...scope.path, ...rule.list.split("."), this.#keyOf(rule, key, { item, scope, path })];
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
      const leaf = own.at === undefined ? undefined : this.#tree.leaves.get(item.pointer + own.at);
      const raw = own.segment === undefined ? leaf?.raw : item.location.at(-1 - own.segment);
      const read =
        raw === undefined ? undefined : this.#converter(own, `${path}[].${key}`, scope).read(String(raw));
      return `=${String(read ?? "")}`;
    }
    const run = new Run(this.#tree, this.#loaded, this.#around);
    run.#dormant = 1;
    const draft: Draft = {};
    const needed = rule.rules.filter(
      (inner) => inner.kind !== "list" && inner.kind !== "numbers" && isNeededFor(key, inner, rule.rules),
    );
    const inner = { item, draft, at: "", path: [], prefix: `${path}[].` };
    run.scope(needed, { ...inner, known: scope.known, parent: scope });
    return `=${String(draft[key] ?? "")}`;
  }

  #isUnused(rule: ListRule, item: ExportItem): boolean {
    if (rule.unused === undefined) return false;
    const leaf = this.#tree.leaves.get(item.pointer + rule.unused.at);
    if (leaf === undefined) return false;
    this.used.add(leaf.pointer);
    return rule.unused.values.includes(leaf.raw.trim());
  }

  #itemsOf(rule: ListRule, scope: Scope): readonly ExportItem[] {
    if (rule.within !== "root" && rule.where === undefined) return this.#run(rule.each, scope.item);
    const root = { pointer: "", value: this.#tree.root, location: [] };
    if (rule.where === undefined)
      return this.#cached(rule, () => this.#run(rule.each, root)) as readonly ExportItem[];
    if (rule.within !== "root")
      return this.#indexed(rule, this.#run(rule.each, scope.item), scope).get(tuple(rule, scope)) ?? [];
    const index = this.#cached(rule, () => this.#indexed(rule, this.#run(rule.each, root), scope));
    return (index as ReadonlyMap<string, readonly ExportItem[]>).get(tuple(rule, scope)) ?? [];
  }

  #cached<T extends readonly ExportItem[] | ReadonlyMap<string, readonly ExportItem[]>>(
    rule: ListRule,
    make: () => T,
  ): T {
    const known = this.#found.get(rule) as T | undefined;
    const found = known ?? make();
    if (known === undefined) this.#found.set(rule, found);
    return found;
  }

  /** Items by the values that say to which item around them they belong. */
  #indexed(
    rule: ListRule,
    items: readonly ExportItem[],
    scope: Scope,
  ): ReadonlyMap<string, readonly ExportItem[]> {
    const index = new Map<string, ExportItem[]>();
    const matches = rule.where!.map(({ at, as, ancestor, field }) => {
      const prefix = ancestorOf(scope, ancestor ?? 1)?.prefix ?? "";
      const type = fieldType(prefix + field);
      return {
        at,
        converter: converterOf(as, { type, decimal: this.#loaded.map.decimal ?? ".", known: {} }),
      };
    });
    for (const item of items) {
      const values = matches.map(({ at, converter }) => {
        const leaf = this.#tree.leaves.get(item.pointer + at);
        if (leaf === undefined) return undefined;
        return [leaf, converter.read(leaf.raw)] as const;
      });
      if (values.some((value) => value?.[1] === undefined)) continue;
      const key = JSON.stringify(values.map((value) => value![1]));
      const known = index.get(key);
      if (known === undefined) index.set(key, [item]);
      else known.push(item);
    }
    return index;
  }

  #run(each: string, item: ExportItem): readonly ExportItem[] {
    if (typeof item.value !== "object" || item.value === null) return [];
    return this.#loaded
      .query(each)
      .query(item.value)
      .nodes.map(({ value, location }) => ({
        value: value as TreeValue,
        pointer: item.pointer + location.map(pointerPart).join(""),
        location: [...item.location, ...location],
      }));
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

function ancestorOf(scope: Scope, count: number): Scope | undefined {
  let found: Scope | undefined = scope;
  for (let i = 1; i < count; i += 1) found = found?.parent;
  return found;
}

function tuple(rule: ListRule, scope: Scope): string {
  return JSON.stringify(
    rule.where!.map(({ ancestor, field }) => {
      const draft = ancestorOf(scope, ancestor ?? 1)?.draft;
      return draft === undefined ? null : (lookUp(draft, field) ?? null);
    }),
  );
}

function lookUp(draft: Draft, field: string): Scalar | undefined {
  const target = groupOf(draft, field, false);
  const value = target?.group[target.name];
  return typeof value === "object" ? undefined : value;
}

/** The object in which a field stands; made on the way if asked for. */
function groupOf(
  draft: Draft,
  field: string,
  make: boolean,
): { readonly group: Draft; readonly name: string } | undefined {
  const names = field.split(".");
  let group = draft;
  for (const name of names.slice(0, -1)) {
    if (group[name] === undefined) {
      if (!make) return undefined;
      group[name] = {};
    }
    group = group[name] as Draft;
  }
  return { group, name: names.at(-1)! };
}

export function splitNumbers(text: string, separator: string): readonly string[] {
  const parts = separator.trim() === "" ? text.trim().split(/\s+/) : text.split(separator);
  return text.trim() === "" ? [] : parts;
}
