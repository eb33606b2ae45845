import { BoothkeepError } from "../../errors/index.ts";
import { pointerParts } from "../../findings/index.ts";
import type { LinePattern } from "../../model/index.ts";

export type PlaceholderStyle = "bare" | "quoted" | "rest" | "number" | "letters";

/** A form in its parts, one after the other. */
export type FormPart =
  | { readonly kind: "space" }
  | { readonly kind: "words"; readonly text: string }
  | { readonly kind: "value"; readonly name: string; readonly style: PlaceholderStyle };

export interface CompiledForm {
  readonly parts: readonly FormPart[];
  readonly at: readonly string[];
  /** Placeholders that are part of the place. */
  readonly inPlace: ReadonlySet<string>;
}

export interface FoundValue {
  readonly name: string;
  readonly style: PlaceholderStyle;
  readonly raw: string;
  readonly start: number;
  readonly end: number;
}

export const PLACEHOLDER = /\{([A-Za-z][A-Za-z0-9]*)(?::(quoted|rest|number|letters))?\}/g;

/** What a placeholder that says what it holds takes: as much as fits, whatever follows. */
const OWN_EXTENT: Partial<Record<PlaceholderStyle, RegExp>> = {
  number: /[-+]?\d+(?:[.,]\d+)?/y,
  letters: /\p{L}+/uy,
};

/** Whether a text is just what such a placeholder takes. */
export function fitsExtent(style: PlaceholderStyle, raw: string): boolean {
  const extent = OWN_EXTENT[style]!;
  extent.lastIndex = 0;
  return extent.exec(raw)?.[0] === raw;
}

/** Goes along a line once, never back: a value ends at the first place where what follows it in the form begins. */
export function matchForm(line: string, parts: readonly FormPart[]): readonly FoundValue[] | undefined {
  const found: FoundValue[] = [];
  const last = line.trimEnd().length;
  let at = line.length - line.trimStart().length;
  for (const [i, part] of parts.entries()) {
    if (part.kind === "space") {
      const start = at;
      while (at < line.length && /\s/.test(line[at]!)) at += 1;
      if (at === start) return undefined;
    } else if (part.kind === "words") {
      if (!line.startsWith(part.text, at)) return undefined;
      at += part.text.length;
    } else {
      const value = valueAt(line, at, last, part, parts[i + 1]);
      if (value === undefined) return undefined;
      found.push(value);
      at = value.end;
    }
  }
  return at >= last ? found : undefined;
}

function valueAt(
  line: string,
  start: number,
  last: number,
  { name, style }: Extract<FormPart, { readonly kind: "value" }>,
  next: FormPart | undefined,
): FoundValue | undefined {
  if (style === "quoted") {
    const close = line[start] === '"' ? line.indexOf('"', start + 1) : -1;
    return close < 0 ? undefined : { name, style, raw: line.slice(start + 1, close), start, end: close + 1 };
  }
  if (style === "rest")
    return { name, style, raw: line.slice(start, last), start, end: Math.max(start, last) };
  const extent = OWN_EXTENT[style];
  if (extent !== undefined) {
    extent.lastIndex = start;
    const raw = extent.exec(line)?.[0];
    return raw === undefined ? undefined : { name, style, raw, start, end: start + raw.length };
  }
  let end = start;
  while (end < last && !/\s/.test(line[end]!)) end += 1;
  if (next?.kind === "words") {
    const stop = line.indexOf(next.text, start + 1);
    if (stop < 0 || stop > end) return undefined;
    end = stop;
  }
  return end === start ? undefined : { name, style, raw: line.slice(start, end), start, end };
}

/** A form in its parts; words stand apart by any space. */
export function compileForm({ form, at }: LinePattern): CompiledForm {
  const places = pointerParts(at);
  const inPlace = new Set(
    places.flatMap((part) => [...part.matchAll(PLACEHOLDER)].map((match) => match[1]!)),
  );
  return { parts: formParts(form), at: places, inPlace };
}

/** The words and placeholders of a form. @throws BoothkeepError field-map.unusable */
export function formParts(form: string): readonly FormPart[] {
  const text = form.trim();
  const parts: FormPart[] = [];
  let at = 0;
  for (const match of text.matchAll(PLACEHOLDER)) {
    const [all, name, style = "bare"] = match as unknown as [string, string, PlaceholderStyle | undefined];
    parts.push(...wordParts(text.slice(at, match.index)));
    if (parts.some((part) => part.kind === "value" && part.name === name))
      throw unusable(form, `{${name}} stands twice`);
    const before = parts.at(-1);
    if (before?.kind === "value" && !knowsItsEnd(before, style))
      throw unusable(form, `nothing stands between {${name}} and what is before it`);
    parts.push({ kind: "value", name, style });
    at = match.index + all.length;
  }
  parts.push(...wordParts(text.slice(at)));
  if (/[{}]/.test(form.replace(PLACEHOLDER, ""))) throw unusable(form, "a brace belongs to no placeholder");
  return parts;
}

/** Whether a placeholder ends where another begins, with nothing between them. */
function knowsItsEnd({ style }: { readonly style: PlaceholderStyle }, next: PlaceholderStyle): boolean {
  return style === "quoted" || (style !== next && OWN_EXTENT[style] !== undefined);
}

function wordParts(text: string): readonly FormPart[] {
  return text
    .split(/(\s+)/)
    .filter((part) => part !== "")
    .map((part) => (part.trim() === "" ? { kind: "space" } : { kind: "words", text: part }));
}

function unusable(form: string, words: string): BoothkeepError {
  return new BoothkeepError(
    "field-map.unusable",
    `The form '${form.slice(0, 60)}' cannot be used: ${words}.`,
    {
      next: "Write each placeholder once, as {name}, {name:quoted}, {name:number}, {name:letters} or {name:rest}.",
    },
  );
}

/** The forms that may fit a line, in their order: those that begin with its first word, or with no word of their own. */
export function formsByWord(forms: readonly CompiledForm[]): (line: string) => readonly CompiledForm[] {
  const firsts = forms.map(({ parts: [first, second] }) =>
    first?.kind === "words" && second?.kind !== "value" ? first.text : undefined,
  );
  const open = forms.filter((_form, i) => firsts[i] === undefined);
  const byWord = new Map<string, readonly CompiledForm[]>();
  for (const word of new Set(firsts)) {
    if (word !== undefined)
      byWord.set(
        word,
        forms.filter((_form, i) => firsts[i] === undefined || firsts[i] === word),
      );
  }
  return (line) => byWord.get(/\S+/.exec(line)?.[0] ?? "") ?? open;
}
