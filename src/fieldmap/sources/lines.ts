import { BoothkeepError } from "../../errors/index.ts";
import { pointerParts } from "../../findings/index.ts";
import type { LinePattern, LinesSource } from "../../model/index.ts";
import { type ExportTree, type Leaf, type LeafStyle, linesOf } from "../tree.ts";
import { TreeGrower } from "./grower.ts";

type PlaceholderStyle = "bare" | "quoted" | "rest";

interface CompiledForm {
  readonly pattern: RegExp;
  readonly placeholders: readonly { readonly name: string; readonly style: PlaceholderStyle }[];
  readonly at: readonly string[];
}

/** No line of a form is longer, in characters; a longer one is of no form, so that no pattern takes long. */
const MAX_LINE = 1000;

const PLACEHOLDER = /\{([A-Za-z][A-Za-z0-9]*)(?::(quoted|rest))?\}/g;

/**
 * Reads lines of words by their declared forms. A line of no form is a value at /unknown-lines/-, so that nothing of
 * the export is overlooked.
 *
 * @throws BoothkeepError export.not-readable, field-map.unusable
 */
export function linesTree(text: string, source: LinesSource): ExportTree {
  const forms = source.forms.map(compileForm);
  const comments = source.comments ?? [];
  const grower = new TreeGrower(text);
  for (const { start, end } of linesOf(text)) {
    const line = text.slice(start, end);
    const bare = line.trim();
    if (bare === "" || comments.some((mark) => bare.startsWith(mark))) continue;
    if (!forms.some((form) => takeLine(line, start, form, grower))) {
      const { object, pointer } = grower.objectAt(["unknown-lines", "-"], start);
      grower.setIn(object, pointer, "line", { raw: line, start, end, style: "rest" });
    }
  }
  return { root: grower.root, leaves: grower.leaves, write: writeWord };
}

function takeLine(line: string, offset: number, form: CompiledForm, grower: TreeGrower): boolean {
  const found = line.length > MAX_LINE ? null : form.pattern.exec(line);
  if (found?.indices === undefined) return false;
  const path = form.at.map((part) =>
    part.replace(PLACEHOLDER, (_all, name: string) => found.groups?.[name] ?? ""),
  );
  const { object, pointer } = grower.objectAt(path, offset);
  const inPath = new Set(
    form.at.flatMap((part) => [...part.matchAll(PLACEHOLDER)].map((match) => match[1]!)),
  );
  for (const { name, style } of form.placeholders) {
    if (inPath.has(name)) continue;
    const [start, end] = found.indices.groups![name]!;
    const wide = style === "quoted" ? 1 : 0;
    const leafStyle: LeafStyle = style;
    grower.setIn(object, pointer, name, {
      raw: found.groups![name]!,
      start: offset + start - wide,
      end: offset + end + wide,
      style: leafStyle,
    });
  }
  return true;
}

/** A form as a pattern; words stand apart by any space. */
function compileForm(form: LinePattern): CompiledForm {
  const placeholders: { name: string; style: PlaceholderStyle }[] = [];
  let pattern = "";
  let at = 0;
  for (const match of form.form.matchAll(PLACEHOLDER)) {
    const [all, name, style = "bare"] = match as unknown as [string, string, PlaceholderStyle | undefined];
    pattern += literal(form.form.slice(at, match.index));
    if (placeholders.some((other) => other.name === name)) throw unusable(form, `{${name}} stands twice`);
    placeholders.push({ name, style });
    pattern +=
      style === "bare" ? `(?<${name}>\\S+?)` : style === "quoted" ? `"(?<${name}>[^"]*)"` : `(?<${name}>.*)`;
    at = match.index + all.length;
  }
  const tail = form.form.slice(at);
  if (/[{}]/.test(form.form.replace(PLACEHOLDER, "")))
    throw unusable(form, "a brace belongs to no placeholder");
  return {
    pattern: new RegExp(`^\\s*${pattern}${literal(tail)}\\s*$`, "d"),
    placeholders,
    at: pointerParts(form.at),
  };
}

function literal(words: string): string {
  return words
    .split(/(\s+)/)
    .map((part) => (/^\s+$/.test(part) ? "\\s+" : part.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&")))
    .join("");
}

function unusable({ form }: LinePattern, words: string): BoothkeepError {
  return new BoothkeepError(
    "field-map.unusable",
    `The form of line '${form.slice(0, 60)}' cannot be used: ${words}.`,
    {
      next: "Write each placeholder once, as {name}, {name:quoted} or {name:rest}.",
    },
  );
}

function writeWord({ style }: Leaf, raw: string): string | undefined {
  if (/[\r\n]/.test(raw)) return undefined;
  if (style === "quoted") return raw.includes('"') ? undefined : `"${raw}"`;
  if (style === "rest") return raw === raw.trim() ? raw : undefined;
  return /^\S+$/.test(raw) ? raw : undefined;
}
