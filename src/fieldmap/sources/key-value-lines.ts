import type { KeyValueSource } from "../../model/index.ts";
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
  readonly path: readonly string[];
} & (
  | { readonly kind: "section" }
  | { readonly kind: "value"; readonly section: readonly string[]; readonly value: Value }
);

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
  let section: readonly string[] = [];
  for (const { start, end } of linesOf(text)) {
    const line = text.slice(start, end);
    const bare = line.trim();
    if (bare === "" || comments.some((mark) => bare.startsWith(mark))) continue;
    if (source.sections && bare.startsWith("[") && bare.endsWith("]")) {
      section = parts(bare.slice(1, -1).trim(), source.divider);
      tell({ kind: "section", start, end, path: section });
      continue;
    }
    const split = line.indexOf(source.separator);
    const key = line.slice(0, Math.max(0, split)).trim();
    if (key === "")
      throw notReadable(`A line is neither a key with '${source.separator}' nor a section.`, text, start);
    const value = valueSpan(line, split + source.separator.length);
    const path = [...section, ...parts(key, source.divider)];
    const span = { ...value, start: start + value.start, end: start + value.end };
    tell({ kind: "value", start, end, path, section, value: span });
  }
}

function parts(name: string, divider: string | undefined): readonly string[] {
  return divider === undefined ? [name] : name.split(divider);
}

/** A value without the space around it; in double quotes it may have space at its ends. */
function valueSpan(line: string, from: number): Value {
  const rest = line.slice(from);
  const start = from + (rest.length - rest.trimStart().length);
  const end = Math.max(start, line.trimEnd().length);
  const whole = line.slice(start, end);
  const quoted =
    whole.length >= 2 && whole.startsWith('"') && whole.endsWith('"') && !whole.slice(1, -1).includes('"');
  return { raw: quoted ? whole.slice(1, -1) : whole, start, end, quoted };
}

/** Text for a value; undefined where a line cannot hold it. */
export function writeValue({ style }: Pick<Leaf, "style">, raw: string): string | undefined {
  if (/[\r\n]/.test(raw)) return undefined;
  if (style === "quoted") return raw.includes('"') ? undefined : `"${raw}"`;
  return raw === raw.trim() && !/^".*"$/.test(raw) ? raw : undefined;
}
