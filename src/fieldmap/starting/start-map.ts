import { BoothkeepError } from "../../errors/index.ts";
import type { ExportSource } from "../../model/index.ts";
import { FIELDS, type FieldMap, type MapRule } from "../../model/index.ts";
import { type DecodedText, decodeText } from "../encoding.ts";
import { fieldType } from "../field-type.ts";
import { readTree } from "../sources/index.ts";
import type { ExportTree, Leaf } from "../tree.ts";

/** A first map for an export, with what a person must finish. */
export interface StartedMap {
  readonly map: FieldMap;
  /** Each proposed rule with its reason. */
  readonly proposed: readonly { readonly field: string; readonly at: string; readonly words: string }[];
  /** Values of the export for which nothing is proposed. */
  readonly open: readonly { readonly pointer: string; readonly raw: string }[];
}

/**
 * Proposes a map for an export: what kind of text it is, and by names and values which single fields may stand where.
 * Lists are left to a person: which table holds outputs and what tells them apart cannot be known from one file.
 *
 * @throws BoothkeepError as the reading of an export
 */
export function startFieldMap(bytes: Uint8Array, { id }: { readonly id: string }): StartedMap {
  const { text, encoding } = decodeAny(bytes);
  const source = guessSource(text);
  const tree = readTree(text, source);
  const matches = matchFields(tree);
  const rules: MapRule[] = matches.map(({ field, leaf }) => ({ kind: "value", field, at: leaf.pointer }));
  const matched = new Set(matches.map(({ leaf }) => leaf.pointer));
  const open = [...tree.leaves.values()].filter(({ pointer }) => !matched.has(pointer));
  return {
    map: {
      kind: "boothkeep.field-map",
      schemaVersion: "1.0.0",
      id,
      revision: "0.1.0",
      label: `Begun from an export (${source.kind})`.slice(0, 64),
      notes: "Proposed by names and values. Check every rule; add lists and what is ignored on purpose.",
      source: encoding === "utf-8" ? source : { ...source, encoding },
      ...(usesDecimalComma(tree) ? { decimal: "," as const } : {}),
      rules: rules.length > 0 ? rules : [{ kind: "value", field: "unit.serial", at: "/serial" }],
    },
    proposed: matches.map(({ field, leaf, words }) => ({ field, at: leaf.pointer, words })),
    open: open.map(({ pointer, raw }) => ({ pointer, raw })),
  };
}

/** UTF-8, or where the bytes are none, Latin-1: every byte is a letter there, so a person must check. */
function decodeAny(bytes: Uint8Array): DecodedText {
  try {
    return decodeText(bytes);
  } catch (error) {
    if (error instanceof BoothkeepError && error.code === "export.wrong-encoding")
      return decodeText(bytes, "latin-1");
    throw error;
  }
}

function guessSource(text: string): ExportSource {
  const begin = text.trimStart();
  if (/^[[{]/.test(begin) && !/^\[[^\]"{[\n]+\]\s*$/m.test(begin.slice(0, 400))) return { kind: "json" };
  if (begin.startsWith("<")) return { kind: "xml", lists: repeatedElements(begin) };
  const lines = begin.split(/\r\n|\n|\r/).filter((line) => line.trim() !== "" && !/^\s*[;!]/.test(line));
  const sample = lines.slice(0, 200);
  const share = (pattern: RegExp) =>
    sample.filter((line) => pattern.test(line)).length / Math.max(1, sample.length);
  const sections = lines.some((line) => /^\s*\[[^\]]+\]\s*$/.test(line));
  if (share(/^\s*[\w. -]+\s*=/) + (sections ? share(/^\s*\[/) : 0) > 0.8) {
    return { kind: "key-value", separator: "=", sections, divider: ".", comments: [";", "#"] };
  }
  for (const delimiter of [";", "\t", ",", "|"]) {
    if (sample.filter((line) => line.includes(delimiter)).length / Math.max(1, sample.length) < 0.8) continue;
    const mark = sample.some((line) => line.startsWith("#"));
    return mark
      ? { kind: "table", delimiter, header: "by-mark", mark: "#" }
      : { kind: "table", delimiter, header: "first-row" };
  }
  return { kind: "lines", comments: ["!", "#"], forms: [{ form: "{word} {rest:rest}", at: "/line/-" }] };
}

/** Names of elements that stand more than once inside one element. */
function repeatedElements(text: string): string[] {
  const repeated = new Set<string>();
  const open: Set<string>[] = [new Set()];
  for (const [, close, name, single] of text.matchAll(/<(\/?)([A-Za-z_][\w.:-]*)[^<>]*?(\/?)>/g)) {
    if (close === "/") {
      if (open.length > 1) open.pop();
      continue;
    }
    const inside = open.at(-1)!;
    if (inside.has(name!)) repeated.add(name!);
    inside.add(name!);
    if (single !== "/") open.push(new Set());
  }
  return [...repeated];
}

interface FieldMatch {
  readonly field: string;
  readonly leaf: Leaf;
  readonly words: string;
}

/** Single fields (those of no list) by names that share words, where the value can be of the field's type. */
function matchFields(tree: ExportTree): readonly FieldMatch[] {
  const taken = new Set<string>();
  const fields = FIELDS.filter(({ path, owner }) => !path.includes("[]") && owner !== "document");
  const leaves = [...tree.leaves.values()].filter(({ pointer }) => !/\/[1-9]\d*(?:\/|$)/.test(pointer));
  return fields.flatMap(({ path, label }) => {
    const wanted = wordsOf(`${path} ${label}`);
    const last = wordsOf(path.slice(path.lastIndexOf(".") + 1));
    const scored = leaves
      .filter(({ pointer, raw }) => !taken.has(pointer) && raw !== "" && fits(path, raw))
      .map((leaf) => {
        const own = wordsOf(leaf.pointer.slice(leaf.pointer.lastIndexOf("/") + 1));
        const around = wordsOf(leaf.pointer);
        const shared = [...own].filter((word) => last.has(word)).length / Math.max(own.size, last.size, 1);
        const context = [...around].filter((word) => wanted.has(word)).length / Math.max(around.size, 1);
        return { leaf, score: shared + context / 2 };
      })
      .sort((a, b) => b.score - a.score);
    const [best, second] = scored;
    if (best === undefined || best.score < 0.75 || best.score === second?.score) return [];
    taken.add(best.leaf.pointer);
    const value = best.leaf.raw.slice(0, 40);
    return [
      { field: path, leaf: best.leaf, words: `'${value}' at ${best.leaf.pointer} may be the ${label}` },
    ];
  });
}

const UNIT_WORDS = new Set(["db", "ms", "hz", "m", "c", "id"]);

function wordsOf(name: string): ReadonlySet<string> {
  const parts = name
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .split(/[^a-z]+/);
  return new Set(parts.filter((part) => part !== "" && !UNIT_WORDS.has(part)));
}

function fits(path: string, raw: string): boolean {
  if (fieldType(path) === "number") return /^[+-]?\d+(?:[.,]\d+)?\D{0,4}$/.test(raw.trim());
  return fieldType(path) === "text" || /^(?:true|false)$/.test(raw);
}

function usesDecimalComma(tree: ExportTree): boolean {
  const raws = [...tree.leaves.values()].map(({ raw }) => raw);
  const commas = raws.filter((raw) => /^[+-]?\d+,\d+$/.test(raw)).length;
  return commas > raws.filter((raw) => /^[+-]?\d+\.\d+$/.test(raw)).length;
}
