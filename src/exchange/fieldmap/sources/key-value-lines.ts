import type { KeyValueSource } from "../../../model/index.ts";
import { type Leaf, linesOf, notReadable } from "../tree.ts";

/** A value and where it stands. */
export interface Value {
  readonly raw: string;
  readonly start: number;
  readonly end: number;
  readonly quoted: boolean;
}

/** A line that begins a section, or has a value. */
export type KeyValueLine = {
  readonly start: number;
  readonly end: number;
  readonly path: ListedPath;
} & (
  | { readonly kind: "section" }
  | { readonly kind: "value"; readonly section: ListedPath; readonly value: Value }
);

/** A place by its names; a number is one that the text does not hold: which of the items of a list it is. */
export type ListedPath = readonly (string | number)[];

/**
 * Tells the lines of a text, one after the other, without blank ones and comments.
 *
 * @throws BoothkeepError export.not-readable
 */
export function keysAndValues(
  text: string,
  source: KeyValueSource,
  tell: (line: KeyValueLine) => void,
): void {
  const comments = source.comments ?? [];
  const counter = new ListCounter(source);
  let section: ListedPath = [];
  for (const { start, end } of linesOf(text)) {
    const line = text.slice(start, end);
    const bare = line.trim();
    if (bare === "" || comments.some((mark) => bare.startsWith(mark))) continue;
    if (source.sections && bare.startsWith("[") && bare.endsWith("]")) {
      section = counter.placeOf([], parts(bare.slice(1, -1).trim(), source.divider));
      tell({ kind: "section", start, end, path: section });
      continue;
    }
    const split = line.indexOf(source.separator);
    const key = line.slice(0, Math.max(0, split)).trim();
    if (key === "")
      throw notReadable(`A line is neither a key with '${source.separator}' nor a section.`, text, start);
    const value = valueSpan(line, split + source.separator.length, source.escape);
    const path = counter.placeOf(section, parts(key, source.divider));
    const span = { ...value, start: start + value.start, end: start + value.end };
    tell({ kind: "value", start, end, path, section, value: span });
  }
}

/** Numbers the items of what may stand more than once. */
class ListCounter {
  readonly #lists: ReadonlySet<string>;
  readonly #between: string;
  readonly #counts = new Map<string, number>();

  constructor({ lists = [], divider = "." }: KeyValueSource) {
    this.#lists = new Set(lists);
    this.#between = divider;
  }

  /** Names inside a place: the last begins a new item where it names a list, what stands before it is in the last item. */
  placeOf(around: ListedPath, names: readonly string[]): ListedPath {
    if (this.#lists.size === 0) return [...around, ...names];
    const path = [...around];
    for (const [i, name] of names.entries()) {
      path.push(name);
      if (!this.#lists.has(path.filter((part) => typeof part === "string").join(this.#between))) continue;
      const id = JSON.stringify(path);
      const count = this.#counts.get(id) ?? 0;
      const isNew = i === names.length - 1 || count === 0;
      if (isNew) this.#counts.set(id, count + 1);
      path.push(isNew ? count : count - 1);
    }
    return path;
  }
}

function parts(name: string, divider: string | undefined): readonly string[] {
  return divider === undefined ? [name] : name.split(divider);
}

/** A value without the space around it; in double quotes it may have space at its ends. */
function valueSpan(line: string, from: number, mark: string | undefined): Value {
  const rest = line.slice(from);
  const start = from + (rest.length - rest.trimStart().length);
  const end = Math.max(start, line.trimEnd().length);
  const whole = line.slice(start, end);
  const inner =
    whole.length >= 2 && whole.startsWith('"') && whole.endsWith('"') ? whole.slice(1, -1) : undefined;
  const own = inner === undefined ? undefined : unquoted(inner, mark);
  return { raw: own ?? whole, start, end, quoted: own !== undefined };
}

/** What stands between two quotes; undefined where one of its own quotes ends it. */
function unquoted(inner: string, mark: string | undefined): string | undefined {
  if (mark === undefined) return inner.includes('"') ? undefined : inner;
  let raw = "";
  for (let at = 0; at < inner.length; at += 1) {
    const isEscape = inner[at] === mark && (inner[at + 1] === '"' || inner[at + 1] === mark);
    if (isEscape) at += 1;
    else if (inner[at] === '"' || (inner[at] === mark && at === inner.length - 1)) return undefined;
    raw += inner[at]!;
  }
  return raw;
}

/** Text for a value; undefined where a line cannot hold it. */
export type ValueWriter = (leaf: Pick<Leaf, "style">, raw: string) => string | undefined;

export function valueWriter({ escape: mark }: KeyValueSource): ValueWriter {
  return ({ style }, raw) => {
    if (/[\r\n]/.test(raw)) return undefined;
    if (style !== "quoted") return raw === raw.trim() && !/^".*"$/.test(raw) ? raw : undefined;
    if (mark === undefined) return raw.includes('"') ? undefined : `"${raw}"`;
    const written = raw.replaceAll(mark, mark + mark);
    return `"${mark === '"' ? written : written.replaceAll('"', `${mark}"`)}"`;
  };
}
