import { BoothkeepError } from "../errors/index.ts";
import { type Configuration, fieldAt, itemKey, type KeyedItem } from "../model/index.ts";
import { exportPlaceWords } from "./account.ts";
import type { Converter, Scalar } from "./conversions/index.ts";
import { encodeText } from "./encoding.ts";
import { circumstancesOf, converterAt, splitNumbers } from "./interpret.ts";
import type { Binding, KeyPath } from "./interpretation.ts";
import type { LoadedMap } from "./load-map.ts";
import { type OpenedExport, openExport } from "./read-export.ts";
import { type Leaf, lineFinder, pointerPart } from "./tree.ts";

export interface WriteExportOptions {
  /** Name of the original export's file, for messages. */
  readonly file?: string;
  /** True: written also where the export rounds a value or has no room for it; `left` tells what. Default false. */
  readonly acceptLosses?: boolean;
}

/** A place of the export that was changed. */
export interface WrittenPlace {
  /** JSON Pointer in the export's tree. */
  readonly pointer: string;
  readonly line: number;
  readonly before: string;
  readonly after: string;
}

/** A field that the export written does not hold as the configuration has it. */
export interface LeftField {
  /** JSON Pointer in the configuration. */
  readonly pointer: string;
  /** `outside`: no place of the export is for it. `rounded`: the export holds another number. `no-room`: it cannot be written. */
  readonly reason: "outside" | "rounded" | "no-room";
  readonly wanted: unknown;
  /** What the export written holds; absent if it has nothing. */
  readonly held?: unknown;
}

export interface WrittenExport {
  readonly bytes: Uint8Array;
  readonly changed: readonly WrittenPlace[];
  readonly left: readonly LeftField[];
}

/**
 * Writes a configuration into an export. All that no rule reads stays as it is in the original; a value that is the same
 * keeps its very characters, so that writing what was read gives the same bytes. What was written is read again and
 * held against the configuration: what it does not hold is told, never passed over.
 *
 * @param original the export to write into: of the same unit, so that places that the map does not know are right
 * @throws BoothkeepError as readExport for the original; export.cannot-hold with `data.left` where something is rounded or
 *   has no room and losses are not accepted
 */
export function writeExport(
  configuration: Configuration,
  original: Uint8Array,
  loaded: LoadedMap,
  options: WriteExportOptions = {},
): WrittenExport {
  const file = options.file === undefined ? {} : { file: options.file };
  const opened = openExport(original, loaded, { ...file, base: configuration });
  const edits = editsFor(configuration, opened, loaded);
  const text = applyEdits(opened.decoded.text, edits);
  const bytes = edits.length === 0 ? original : encodeText({ ...opened.decoded, text });
  const written = edits.length === 0 ? opened : openExport(bytes, loaded, { base: configuration });
  const left = leftOf(configuration, written);
  const losses = left.filter(({ reason }) => reason !== "outside");
  if (losses.length > 0 && options.acceptLosses !== true) throw cannotHold(losses).at(file);
  const lineAt = lineFinder(opened.decoded.text);
  const changed = edits.map(({ leaf, after, raw }) => ({
    pointer: leaf.pointer,
    line: lineAt(leaf.start),
    before: leaf.raw,
    after: raw ?? after,
  }));
  return { bytes, changed, left };
}

interface Edit {
  readonly leaf: Leaf;
  /** Text that takes the leaf's place. */
  readonly after: string;
  /** The same, unescaped. */
  readonly raw?: string;
}

function editsFor(configuration: Configuration, opened: OpenedExport, loaded: LoadedMap): readonly Edit[] {
  const { tree, interpretation } = opened;
  const writer = new Writer(configuration, loaded);
  const edits = new Map<string, Edit>();
  for (const binding of interpretation.bindings) {
    const { leaf } = binding;
    const raw = writer.rawFor(binding);
    if (raw === undefined || raw === leaf.raw) continue;
    const after = tree.write(leaf, raw);
    if (after !== undefined) edits.set(leaf.pointer, { leaf, after, raw });
  }
  return [...edits.values()].sort((a, b) => a.leaf.start - b.leaf.start);
}

class Writer {
  readonly #configuration: Configuration;
  readonly #loaded: LoadedMap;
  readonly #converters = new Map<unknown, Converter>();
  /** Bindings of one item share one path. */
  readonly #found = new Map<KeyPath, unknown>();
  readonly #items = new Map<unknown, ReadonlyMap<string | undefined, unknown>>();

  constructor(configuration: Configuration, loaded: LoadedMap) {
    this.#configuration = configuration;
    this.#loaded = loaded;
  }

  /** What a place of the export should hold; undefined: leave it. */
  rawFor(binding: Binding): string | undefined {
    switch (binding.kind) {
      case "presence":
        return this.#presence(binding);
      case "numbers":
        return this.#numbers(binding);
      default:
        return this.#value(binding);
    }
  }

  #presence({ rule, leaf, item }: Extract<Binding, { readonly kind: "presence" }>): string | undefined {
    const { values, used } = rule.unused!;
    const isUnused = values.includes(leaf.raw.trim());
    const wanted = this.#item(item) !== undefined;
    // The list around it may be gone as well: then there is nothing to switch off here.
    if (!wanted)
      return isUnused ||
        this.#item(
          item.slice(0, item.findLastIndex((part, i) => i < item.length - 1 && part.startsWith("=")) + 1),
        ) === undefined
        ? undefined
        : values[0];
    return isUnused ? used : undefined;
  }

  #value(binding: Extract<Binding, { readonly kind: "value" | "number" }>): string | undefined {
    const { rule, leaf, field } = binding;
    if (rule.kind === "value" && rule.readOnly === true) return undefined;
    const around = this.#item(binding.item);
    if (around === undefined) return undefined;
    const found = memberAt(around, binding.names);
    const value = (
      binding.kind === "number" ? (found as readonly number[] | undefined)?.[binding.index] : found
    ) as Scalar | undefined;
    const absent = rule.kind === "value" ? rule.absent : undefined;
    const fallback = rule.kind === "value" ? rule.default : undefined;
    const isAbsent = absent?.includes(leaf.raw.trim()) === true;
    if (value === undefined || (isAbsent && value === fallback)) return isAbsent ? undefined : absent?.[0];
    const converter = this.#converter(rule, field);
    if (!isAbsent && converter.read(leaf.raw) === value) return undefined;
    return converter.write(value, isAbsent ? "" : leaf.raw);
  }

  #numbers({
    rule,
    leaf,
    item,
    names,
    field,
  }: Extract<Binding, { readonly kind: "numbers" }>): string | undefined {
    const values = memberAt(this.#item(item), names);
    if (!Array.isArray(values)) return undefined;
    const converter = this.#converter(rule, field);
    const old = splitNumbers(leaf.raw, rule.separator!);
    if (old.length === values.length && old.every((raw, i) => converter.read(raw) === values[i]))
      return undefined;
    const raws = values.map((value: number, i) =>
      converter.read(old[i] ?? "") === value ? old[i]! : converter.write(value, old[i] ?? old[0] ?? ""),
    );
    return raws.includes(undefined) ? undefined : raws.join(rule.separator);
  }

  /** The item at a path; undefined if the configuration has none (a slot not in use). */
  #item(path: KeyPath): unknown {
    if (this.#found.has(path)) return this.#found.get(path);
    let value: unknown = this.#configuration;
    for (const part of path) {
      if (typeof value !== "object" || value === null) break;
      value = part.startsWith("=") ? this.#itemsOf(value).get(part.slice(1)) : memberAt(value, [part]);
    }
    this.#found.set(path, value);
    return value;
  }

  #itemsOf(list: object): ReadonlyMap<string | undefined, unknown> {
    const known = this.#items.get(list);
    if (known !== undefined) return known;
    const items = new Map((list as readonly KeyedItem[]).map((item) => [itemKey(item), item]));
    this.#items.set(list, items);
    return items;
  }

  #converter(rule: Extract<Binding, { readonly field: string }>["rule"], field: string): Converter {
    const known = this.#converters.get(rule);
    const converter = known ?? converterAt(rule, field, this.#loaded, circumstancesOf(this.#configuration));
    this.#converters.set(rule, converter);
    return converter;
  }
}

function memberAt(object: unknown, names: readonly string[]): unknown {
  let value = object;
  for (const name of names) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, name)) return undefined;
    value = (value as Readonly<Record<string, unknown>>)[name];
  }
  return value;
}

function applyEdits(text: string, edits: readonly Edit[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const { leaf, after } of edits) {
    pieces.push(text.slice(at, leaf.start), after);
    at = leaf.end;
  }
  return pieces.join("") + text.slice(at);
}

/** Every field that an export does not hold as wanted. */
function leftOf(configuration: Configuration, written: OpenedExport): readonly LeftField[] {
  const { $schema: _schema, kind: _kind, schemaVersion: _version, ...wanted } = configuration;
  const { $schema: _own, kind: _k, schemaVersion: _v, ...holds } = written.configuration;
  const left: LeftField[] = [];
  differences(wanted, holds, "", (pointer, want, have) => {
    const outside = written.interpretation.origins.get(pointer)?.kind === "map";
    const rounded = typeof want === "number" && typeof have === "number";
    const reason = outside ? "outside" : rounded ? "rounded" : "no-room";
    left.push({ pointer, reason, wanted: want ?? null, ...(have === undefined ? {} : { held: have }) });
  });
  return left;
}

type OnDifference = (pointer: string, want: unknown, have: unknown) => void;

/** Tells every leaf in which two documents differ. */
function differences(want: unknown, have: unknown, at: string, tell: OnDifference): void {
  if (want === have) return;
  const isObject = (value: unknown): value is object => typeof value === "object" && value !== null;
  if (!isObject(want) && !isObject(have)) {
    tell(at, want, have);
    return;
  }
  const [a, b] = [isObject(want) ? want : {}, isObject(have) ? have : {}] as Readonly<
    Record<string, unknown>
  >[];
  const names = new Set([...Object.keys(a!), ...Object.keys(b!)]);
  if (names.size === 0 && (want === undefined || have === undefined)) tell(at, want, have);
  for (const name of names) differences(a![name], b![name], at + pointerPart(name), tell);
}

function cannotHold(losses: readonly LeftField[]): BoothkeepError {
  const told = losses.slice(0, 3).map(({ pointer, reason, wanted, held }) => {
    const name =
      fieldAt(pointer.slice(1).replace(/\/\d+/g, "[]").replaceAll("/", "."))?.label ??
      exportPlaceWords(pointer);
    const has = held === undefined ? "has nothing" : `has ${JSON.stringify(held)}`;
    return `${pointer} (${name}): ${JSON.stringify(wanted)} is wanted, the export ${reason === "rounded" ? "rounds: it " : ""}${has}.`;
  });
  const more = losses.length > 3 ? ` (and ${losses.length - 3} more)` : "";
  return new BoothkeepError(
    "export.cannot-hold",
    `The export cannot hold the configuration as it is. ${told.join(" ")}${more}`,
    {
      place: { pointer: losses[0]!.pointer },
      next: "Nothing was written. Change these values, export the unit again with the same items, or accept the losses.",
      data: { left: losses },
    },
  );
}
