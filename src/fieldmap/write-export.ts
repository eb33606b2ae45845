import { BoothkeepError } from "../errors/index.ts";
import { type Configuration, fieldAt, itemKey, type KeyedItem } from "../model/index.ts";
import { exportPlaceWords, leafPointers } from "./account.ts";
import type { Converter, Scalar } from "./conversions/index.ts";
import { encodeText } from "./encoding.ts";
import { type Binding, circumstancesOf, converterAt, type KeyPath, splitNumbers } from "./interpret.ts";
import type { LoadedMap } from "./load-map.ts";
import { type OpenedExport, openExport } from "./read-export.ts";
import { type Leaf, positionIn } from "./tree.ts";

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
  const left = leftOf(configuration, bytes, loaded);
  const losses = left.filter(({ reason }) => reason !== "outside");
  if (losses.length > 0 && options.acceptLosses !== true) throw cannotHold(losses).at(file);
  const changed = edits.map(({ leaf, after, raw }) => ({
    pointer: leaf.pointer,
    line: positionIn(opened.decoded.text, leaf.start).line,
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

  #presence({ rule, leaf, path }: Extract<Binding, { readonly kind: "presence" }>): string | undefined {
    const { values, used } = rule.unused!;
    const isUnused = values.includes(leaf.raw.trim());
    const wanted = this.#lookUp(path) !== undefined;
    // The list around it may be gone as well: then there is nothing to switch off here.
    if (!wanted) return isUnused || this.#lookUp(path.slice(0, -2)) === undefined ? undefined : values[0];
    return isUnused ? used : undefined;
  }

  #value(binding: Extract<Binding, { readonly kind: "value" | "number" }>): string | undefined {
    const { rule, leaf, path, field } = binding;
    if (rule.kind === "value" && rule.readOnly === true) return undefined;
    if (this.#around(path) === undefined) return undefined;
    const value = this.#lookUp(path) as Scalar | undefined;
    const absent = rule.kind === "value" ? rule.absent : undefined;
    const fallback = rule.kind === "value" ? rule.default : undefined;
    const isAbsent = absent?.includes(leaf.raw.trim()) === true;
    if (value === undefined || (isAbsent && value === fallback)) return isAbsent ? undefined : absent?.[0];
    const converter = this.#converter(rule, field);
    if (!isAbsent && converter.read(leaf.raw) === value) return undefined;
    return converter.write(value, isAbsent ? "" : leaf.raw);
  }

  #numbers({ rule, leaf, path, field }: Extract<Binding, { readonly kind: "numbers" }>): string | undefined {
    const values = this.#lookUp(path);
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

  /** The item in which a field stands; undefined if the configuration has none (a slot not in use). */
  #around(path: KeyPath): unknown {
    const last = path.findLastIndex((part) => typeof part === "string" && part.startsWith("="));
    return last < 0 ? this.#configuration : this.#lookUp(path.slice(0, last + 1));
  }

  #lookUp(path: KeyPath): unknown {
    let value: unknown = this.#configuration;
    for (const part of path) {
      if (typeof value !== "object" || value === null) return undefined;
      if (typeof part === "string" && part.startsWith("=")) value = this.#itemsOf(value).get(part.slice(1));
      else value = Object.hasOwn(value, part) ? (value as Record<string | number, unknown>)[part] : undefined;
    }
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

function applyEdits(text: string, edits: readonly Edit[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const { leaf, after } of edits) {
    pieces.push(text.slice(at, leaf.start), after);
    at = leaf.end;
  }
  return pieces.join("") + text.slice(at);
}

/** Reads what was written and finds every field that it does not hold as wanted. */
function leftOf(configuration: Configuration, bytes: Uint8Array, loaded: LoadedMap): readonly LeftField[] {
  const { configuration: held, account } = openExport(bytes, loaded, { base: configuration });
  const outside = new Set(
    account.fields.filter(({ origin }) => origin === "map").map(({ pointer }) => pointer),
  );
  const { $schema: _schema, kind: _kind, schemaVersion: _version, ...wanted } = configuration;
  const pointers = new Set([...leafPointers(wanted), ...leafPointers(held)]);
  const left: LeftField[] = [];
  for (const pointer of pointers) {
    if (/^\/(?:\$schema|kind|schemaVersion)$/.test(pointer)) continue;
    const [want, have] = [valueAt(wanted, pointer), valueAt(held, pointer)];
    if (Object.is(want, have) || (want === have && typeof want !== "object")) continue;
    const rounded = typeof want === "number" && typeof have === "number" && !outside.has(pointer);
    const reason = outside.has(pointer) ? "outside" : rounded ? "rounded" : "no-room";
    left.push({ pointer, reason, wanted: want ?? null, ...(have === undefined ? {} : { held: have }) });
  }
  return left;
}

function valueAt(document: unknown, pointer: string): unknown {
  let value = document;
  for (const part of pointer.split("/").slice(1)) {
    const name = part.replaceAll("~1", "/").replaceAll("~0", "~");
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, name)) return undefined;
    value = (value as Record<string, unknown>)[name];
  }
  return value;
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
