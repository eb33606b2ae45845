import { BoothkeepError } from "../../../base/errors/index.ts";
import { pointerParts } from "../../../base/findings/index.ts";
import type { LinePattern } from "../../../model/index.ts";

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
      while (at < line.length && isSpace(line, at)) at += 1;
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
  while (end < last && !isSpace(line, end)) end += 1;
  if (next?.kind === "words") {
    const stop = line.indexOf(next.text, start + 1);
    if (stop < 0 || stop > end) return undefined;
    end = stop;
  }
  return end === start ? undefined : { name, style, raw: line.slice(start, end), start, end };
}

/** Space, mostly plain: the pattern is only asked about letters beyond ASCII. */
function isSpace(line: string, at: number): boolean {
  const code = line.charCodeAt(at);
  if (code < 0x80) return code === 0x20 || (code >= 0x09 && code <= 0x0d);
  return /\s/.test(line[at]!);
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

/** What a form says of a line before it is matched: its first word, and another that stands at a known turn. */
interface Hint {
  readonly form: CompiledForm;
  readonly first: string | undefined;
  readonly turn: number;
  readonly word: string | undefined;
}

/** The forms that may fit a line, in their order: those whose first word, and the next of their own, it has too. */
export function formsByWord(forms: readonly CompiledForm[]): (line: string) => readonly CompiledForm[] {
  const hints = forms.map(hintOf);
  const open = hints.filter(({ first }) => first === undefined);
  const byWord = new Map<string, readonly Hint[]>();
  for (const word of new Set(hints.map(({ first }) => first))) {
    if (word !== undefined)
      byWord.set(
        word,
        hints.filter(({ first }) => first === undefined || first === word),
      );
  }
  return (line) => {
    const words = firstWords(line);
    return (byWord.get(words[0] ?? "") ?? open)
      .filter(({ turn, word }) => word === undefined || words[turn] === word)
      .map(({ form }) => form);
  };
}

/** So many words of a line are looked at before its form is known. */
const HINTED_WORDS = 8;

function firstWords(line: string): readonly string[] {
  const words: string[] = [];
  for (let at = 0; at < line.length && words.length < HINTED_WORDS; ) {
    while (at < line.length && isSpace(line, at)) at += 1;
    const start = at;
    while (at < line.length && !isSpace(line, at)) at += 1;
    if (at > start) words.push(line.slice(start, at));
  }
  return words;
}

/** Words by their turn, as far as each placeholder is one word of the line by itself. */
function hintOf(form: CompiledForm): Hint {
  const turns: (string | undefined)[] = [];
  let isAlone = true;
  for (const [i, part] of form.parts.entries()) {
    if (part.kind === "space") continue;
    const next = form.parts[i + 1];
    if (part.kind === "value" && (part.style === "quoted" || part.style === "rest")) break;
    isAlone = next === undefined || next.kind === "space";
    if (!isAlone) break;
    turns.push(part.kind === "words" ? part.text : undefined);
    if (turns.length === HINTED_WORDS) break;
  }
  const turn = turns.findIndex((word, i) => i > 0 && word !== undefined);
  return { form, first: turns[0], turn, word: turn < 0 ? undefined : turns[turn] };
}
