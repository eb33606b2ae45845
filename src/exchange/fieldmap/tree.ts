import { BoothkeepError } from "../../base/errors/index.ts";
import { pointerParts } from "../../base/findings/index.ts";
import type { StructuralChange } from "./structural-change.ts";
import type { TextEdit } from "./text-edit.ts";

/** A part of an export as JSON values, whatever kind it is of. Objects have no prototype: any name is just a name. */
export type TreeValue = string | number | boolean | null | TreeList | TreeObject;
export type TreeList = TreeValue[];
export interface TreeObject {
  [name: string]: TreeValue;
}

/** One value of an export and where it stands in the text. */
export interface Leaf {
  /** JSON Pointer (RFC 6901) in the export's tree. */
  readonly pointer: string;
  /** The value as text: unescaped, without quotes. */
  readonly raw: string;
  /** What is replaced when the value changes: offsets in the text, quotes included. */
  readonly start: number;
  readonly end: number;
  /** How it stands in the text; each source kind has its own. */
  readonly style: LeafStyle;
}

export type LeafStyle =
  | "bare"
  | "quoted"
  | "json-string"
  | "json-literal"
  | "xml-text"
  | "xml-cdata"
  | "xml-attribute"
  | "xml-attribute-single"
  | "xml-empty"
  | "rest"
  | "number"
  | "letters";

/** An export as read: its tree, and every value with its place in the text. */
export interface ExportTree {
  readonly root: TreeValue;
  readonly leaves: ReadonlyMap<string, Leaf>;
  /** Pointers of values that say that there is nothing, as the map declares: they are used by saying so. */
  readonly nothing: ReadonlySet<string>;
  /** Text for a value in the place of a leaf; undefined where the format cannot hold it there. */
  readonly write: (leaf: Leaf, raw: string) => string | undefined;
  /** Edits that give the text more or fewer parts, in its own style; undefined where the format has no place for one. */
  readonly restructure: (changes: readonly StructuralChange[]) => readonly TextEdit[] | undefined;
}

export const NONE: ReadonlySet<string> = new Set();

/** So many values no unit has; more would take memory without end. */
export const MAX_VALUES = 400_000;

/** The values of an export by pointer. Refuses more than {@link MAX_VALUES}. */
export class LeafMap extends Map<string, Leaf> {
  override set(pointer: string, leaf: Leaf): this {
    if (this.size >= MAX_VALUES) {
      throw new BoothkeepError(
        "input.too-large",
        `The export has more than ${MAX_VALUES} values; no unit has so many.`,
        {
          next: "Name an export of the settings of one unit.",
          data: { maxValues: MAX_VALUES },
        },
      );
    }
    return super.set(pointer, leaf);
  }
}

/** Deepest nesting that is read. */
export const MAX_TREE_DEPTH = 64;

export function newObject(): TreeObject {
  return Object.create(null) as TreeObject;
}

export function has(object: TreeObject, name: string): boolean {
  return Object.hasOwn(object, name);
}

export function isObject(value: TreeValue | undefined): value is TreeObject {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** What is at a JSON Pointer. */
export function valueAt(root: TreeValue, pointer: string): TreeValue | undefined {
  let value: TreeValue | undefined = root;
  for (const part of pointerParts(pointer)) {
    if (Array.isArray(value)) value = value[Number(part)];
    else value = isObject(value) && has(value, part) ? value[part] : undefined;
  }
  return value;
}

/** One part of a JSON Pointer, escaped. */
export function pointerPart(part: string | number): string {
  if (typeof part === "number") return `/${part}`;
  return /[~/]/.test(part) ? `/${part.replaceAll("~", "~0").replaceAll("/", "~1")}` : `/${part}`;
}

/** Line and column, both from 1, of an offset. For many offsets see {@link lineFinder}. */
export function positionIn(text: string, offset: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let start = 0;
  for (let at = text.indexOf("\n"); at >= 0 && at < offset; at = text.indexOf("\n", at + 1)) {
    line += 1;
    start = at + 1;
  }
  return { line, column: offset - start + 1 };
}

/** Tells the line, from 1, of ascending offsets: goes over the text once for all of them. */
export function lineFinder(text: string): (offset: number) => number {
  let line = 1;
  let next = text.indexOf("\n");
  let last = 0;
  return (offset) => {
    if (offset < last) return positionIn(text, offset).line;
    last = offset;
    while (next >= 0 && next < offset) {
      line += 1;
      next = text.indexOf("\n", next + 1);
    }
    return line;
  };
}

/** The error for a text that is not of the kind that it should be. */
export function notReadable(words: string, text: string, offset: number): BoothkeepError {
  return new BoothkeepError("export.not-readable", words, {
    place: positionIn(text, offset),
    next: "Check that this is the right export and that it was copied whole, or correct the map's source.",
  });
}

/** Lines of a text by their offsets, without line ends (LF, CR LF, CR). */
export function linesOf(text: string): readonly { readonly start: number; readonly end: number }[] {
  const lines: { start: number; end: number }[] = [];
  const breaks = /\r\n|\n|\r/g;
  let start = 0;
  for (let found = breaks.exec(text); found !== null; found = breaks.exec(text)) {
    lines.push({ start, end: found.index });
    start = breaks.lastIndex;
  }
  if (start < text.length) lines.push({ start, end: text.length });
  return lines;
}
