import type { Configuration, NumbersRule, ValueRule } from "../../../model/index.ts";
import { holds } from "../condition.ts";
import type { Circumstances, Converter, Scalar } from "../conversions/index.ts";
import { circumstancesOf, converterAt, splitNumbers } from "../interpret.ts";
import type { Binding, MissingPlace } from "../interpretation.ts";
import type { LoadedMap } from "../load-map.ts";
import { KeyedDocument, memberAt, pathAround } from "./keyed-document.ts";

/** What the places of an export should hold so that it reads as a configuration. */
export class Writer {
  readonly document: KeyedDocument;
  /** What conversions rest on. */
  readonly circumstances: Circumstances;
  readonly #loaded: LoadedMap;
  readonly #converters = new Map<unknown, Converter>();

  constructor(configuration: Configuration, loaded: LoadedMap) {
    this.document = new KeyedDocument(configuration);
    this.circumstances = circumstancesOf(configuration);
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
    const wanted = this.document.at(item) !== undefined;
    // The list around it may be gone as well: then there is nothing to switch off here.
    if (!wanted) return isUnused || this.document.at(pathAround(item)) === undefined ? undefined : values[0];
    return isUnused ? used : undefined;
  }

  #value(binding: Extract<Binding, { readonly kind: "value" | "number" }>): string | undefined {
    const { rule, leaf, field } = binding;
    if (rule.kind === "value" && rule.readOnly === true) return undefined;
    const around = this.document.at(binding.item);
    if (around === undefined || !this.#holds(rule, around)) return undefined;
    const found = memberAt(around, binding.names);
    const value = (
      binding.kind === "number" ? (found as readonly number[] | undefined)?.[binding.index] : found
    ) as Scalar | undefined;
    const absent = rule.kind === "value" ? rule.absent : undefined;
    const fallback = rule.kind === "value" ? rule.default : undefined;
    const isAbsent = absent?.includes(leaf.raw.trim()) === true;
    if (value === undefined || (isAbsent && value === fallback)) return isAbsent ? undefined : absent?.[0];
    const converter = this.converter(rule, field);
    if (!isAbsent && converter.read(leaf.raw) === value) return undefined;
    return converter.write(value, isAbsent ? "" : leaf.raw);
  }

  /** Whether a rule holds for an item of the configuration. */
  applies({ rule, item }: Extract<Binding, { readonly field: string }>): boolean {
    const around = this.document.at(item);
    return around !== undefined && this.#holds(rule, around);
  }

  #holds(rule: ValueRule | NumbersRule, around: unknown): boolean {
    return holds(rule, (field) => memberAt(around, field.split(".")));
  }

  #numbers({
    rule,
    leaf,
    item,
    names,
    field,
  }: Extract<Binding, { readonly kind: "numbers" }>): string | undefined {
    const around = this.document.at(item);
    const values = memberAt(around, names);
    if (!Array.isArray(values)) return around !== undefined && rule.optional === true ? "" : undefined;
    const converter = this.converter(rule, field);
    const old = splitNumbers(leaf.raw, rule.separator!);
    if (old.length === values.length && old.every((raw, i) => converter.read(raw) === values[i]))
      return undefined;
    const raws = values.map((value: number, i) =>
      converter.read(old[i] ?? "") === value ? old[i]! : converter.write(value, old[i] ?? old[0] ?? ""),
    );
    return raws.includes(undefined) ? undefined : raws.join(rule.separator);
  }

  /** Text for a place that the export lacks; undefined where nothing is to stand there. */
  newRaw({
    rule,
    item,
    names,
    field,
  }: MissingPlace): { readonly raw: string; readonly filler: boolean } | undefined {
    const around = this.document.at(item);
    if (around === undefined || (rule.kind === "value" && rule.readOnly === true)) return undefined;
    if (!this.#holds(rule, around)) return undefined;
    const value = memberAt(around, names);
    const converter = this.converter(rule, field);
    if (rule.kind === "numbers") {
      if (!Array.isArray(value)) return undefined;
      const raws = value.map((number: number) => converter.write(number, ""));
      return raws.includes(undefined) ? undefined : { raw: raws.join(rule.separator), filler: false };
    }
    if (value === undefined || value === rule.default) {
      const raw = value === undefined ? rule.absent?.[0] : converter.write(value as Scalar, "");
      return raw === undefined ? undefined : { raw, filler: true };
    }
    const raw = converter.write(value as Scalar, "");
    return raw === undefined ? undefined : { raw, filler: false };
  }

  converter(rule: Extract<Binding, { readonly field: string }>["rule"], field: string): Converter {
    const known = this.#converters.get(rule);
    const converter = known ?? converterAt(rule, field, this.#loaded, this.circumstances);
    this.#converters.set(rule, converter);
    return converter;
  }
}
