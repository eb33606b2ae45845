import type { KeyValueSource } from "../../model/index.ts";
import { type ExportTree, type Leaf, linesOf, notReadable } from "../tree.ts";
import { TreeGrower } from "./grower.ts";

/**
 * Reads lines of a key and a value, with or without sections. A key that stands twice is refused: which of the two
 * holds cannot be known.
 *
 * @throws BoothkeepError export.not-readable
 */
export function keyValueTree(text: string, source: KeyValueSource): ExportTree {
  const grower = new TreeGrower(text);
  const comments = source.comments ?? [];
  let section: readonly string[] = [];
  for (const { start, end } of linesOf(text)) {
    const line = text.slice(start, end);
    const bare = line.trim();
    if (bare === "" || comments.some((mark) => bare.startsWith(mark))) continue;
    if (source.sections && bare.startsWith("[") && bare.endsWith("]")) {
      section = parts(bare.slice(1, -1).trim(), source.divider);
      grower.objectAt(section, start);
      continue;
    }
    const split = line.indexOf(source.separator);
    const key = line.slice(0, Math.max(0, split)).trim();
    if (key === "")
      throw notReadable(`A line is neither a key with '${source.separator}' nor a section.`, text, start);
    const value = valueSpan(line, split + source.separator.length);
    grower.set([...section, ...parts(key, source.divider)], {
      raw: value.raw,
      start: start + value.start,
      end: start + value.end,
      style: value.quoted ? "quoted" : "rest",
    });
  }
  return { root: grower.root, leaves: grower.leaves, write: (leaf, raw) => writeValue(leaf, raw) };
}

function parts(name: string, divider: string | undefined): readonly string[] {
  return divider === undefined ? [name] : name.split(divider);
}

/** A value without the space around it; in double quotes it may have space at its ends. */
function valueSpan(line: string, from: number) {
  const rest = line.slice(from);
  const start = from + (rest.length - rest.trimStart().length);
  const end = Math.max(start, line.trimEnd().length);
  const whole = line.slice(start, end);
  const quoted =
    whole.length >= 2 && whole.startsWith('"') && whole.endsWith('"') && !whole.slice(1, -1).includes('"');
  return { raw: quoted ? whole.slice(1, -1) : whole, start, end, quoted };
}

function writeValue({ style }: Leaf, raw: string): string | undefined {
  if (/[\r\n]/.test(raw)) return undefined;
  if (style === "quoted") return raw.includes('"') ? undefined : `"${raw}"`;
  return raw === raw.trim() && !/^".*"$/.test(raw) ? raw : undefined;
}
