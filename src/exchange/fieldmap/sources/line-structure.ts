import { pointerParts } from "../../../base/findings/index.ts";
import type { ItemCopy, NewPlace, PlaceRemoval, StructuralChange } from "../structural-change.ts";
import type { TextEdit } from "../text-edit.ts";

/** A line (or a row, over several lines) that says something of a place in the export's tree. */
export interface PlacedLine {
  readonly start: number;
  /** Without the line end. */
  readonly end: number;
  /** The place that the line speaks of. */
  readonly path: readonly string[];
  /** Pointers of its values. */
  readonly leaves: readonly string[];
  /** The line for another place, with other values; undefined where it cannot be written. */
  readonly rewrite: (path: readonly string[], raws: ReadonlyMap<string, string>) => string | undefined;
}

export interface LineDocument {
  readonly text: string;
  readonly lines: readonly PlacedLine[];
  /** Lines for values that the export lacks, all of one item; `near` is the line behind which they will stand. */
  readonly newLines: (
    places: readonly NewPlace[],
    near: (path: readonly string[]) => PlacedLine | undefined,
  ) => readonly { readonly near: PlacedLine; readonly text: string }[] | undefined;
}

/** Edits that add and take away whole lines, each beside those of its kind. */
export function restructureLines(
  changes: readonly StructuralChange[],
  document: LineDocument,
): readonly TextEdit[] | undefined {
  const edit = new LineEditor(document);
  for (const change of changes) {
    if (change.kind === "copy" && !edit.copy(change)) return undefined;
  }
  if (!edit.remove(changes.filter((change) => change.kind === "remove"))) return undefined;
  for (const ofItem of groupByItem(changes).values()) if (!edit.set(ofItem)) return undefined;
  return edit.edits;
}

function groupByItem(changes: readonly StructuralChange[]): ReadonlyMap<string, readonly NewPlace[]> {
  const groups = new Map<string, NewPlace[]>();
  for (const change of changes) {
    if (change.kind !== "set") continue;
    const known = groups.get(change.item);
    if (known === undefined) groups.set(change.item, [change]);
    else known.push(change);
  }
  return groups;
}

class LineEditor {
  readonly edits: TextEdit[] = [];
  readonly #document: LineDocument;
  readonly #lineEnd: string;

  constructor(document: LineDocument) {
    this.#document = document;
    this.#lineEnd = /\r\n|\n|\r/.exec(document.text)?.[0] ?? "\n";
  }

  copy({ template, parent, name, after, before, raws }: ItemCopy): boolean {
    const from = pointerParts(template);
    const to = [...pointerParts(parent), name ?? "-"];
    const runs = this.#runs((line) => isUnder(line.path, from));
    if (runs.length === 0) return false;
    const isBeside = after === template || (after === undefined && before === template);
    const between = this.#blankBetween(from.slice(0, -1), runs[0]![0]!);
    const blocks: string[] = [];
    for (const run of runs) {
      const lines: string[] = [];
      for (const line of run) {
        const text = line.rewrite([...to, ...line.path.slice(from.length)], raws);
        if (text === undefined) return false;
        lines.push(text);
      }
      blocks.push(lines.join(this.#lineEnd));
    }
    if (isBeside) {
      runs.forEach((run, i) => {
        const blank = i === 0 ? between : "";
        if (after === undefined) this.#insertBefore(run[0]!, blocks[i]! + this.#lineEnd + blank);
        else this.#insertAfter(run.at(-1)!, blank + blocks[i]!);
      });
      return true;
    }
    return this.#place(blocks.join(this.#lineEnd), {
      parent,
      after,
      before,
      blank: between,
    });
  }

  remove(removals: readonly PlaceRemoval[]): boolean {
    const gone = new Set<PlacedLine>();
    const values = new Set(removals.flatMap(({ pointer, besides = [] }) => [pointer, ...besides]));
    for (const { pointer } of removals) {
      const path = pointerParts(pointer);
      const found = this.#document.lines.filter(
        ({ path: own, leaves }) =>
          isUnder(own, path) || (leaves.includes(pointer) && leaves.every((leaf) => values.has(leaf))),
      );
      if (found.length === 0) return false;
      for (const line of found) gone.add(line);
    }
    for (const run of this.#runs((line) => gone.has(line))) this.#removeRun(run);
    return true;
  }

  /** Takes lines out, and blank lines behind them where blank lines stand ahead of them too. */
  #removeRun(run: readonly PlacedLine[]): void {
    const { lines, text } = this.#document;
    const [first, last] = [run[0]!, run.at(-1)!];
    const opensGap = first === lines[0] || this.#blankBefore(first) !== "";
    for (const line of run) {
      const end = this.#behind(line);
      const blank = line === last && !opensGap ? "" : blankLinesAt(text, end);
      this.edits.push({ start: line.start, end: end + blank.length, text: "" });
    }
  }

  set(places: readonly NewPlace[]): boolean {
    const item = pointerParts(places[0]!.item);
    const made = this.#document.newLines(places, (path) => this.#nearest(path, item));
    if (made === undefined) return false;
    for (const { near, text } of made) this.#insertAfter(near, text);
    return true;
  }

  /** The last line of the place that has the most in common with a path, inside an item. */
  #nearest(path: readonly string[], item: readonly string[]): PlacedLine | undefined {
    for (let length = path.length - 1; length >= item.length; length -= 1) {
      const prefix = path.slice(0, length);
      const found = this.#document.lines.findLast((line) => isUnder(line.path, prefix));
      if (found !== undefined) return found;
    }
    return undefined;
  }

  #place(
    block: string,
    {
      parent,
      after,
      before,
      blank,
    }: Pick<ItemCopy, "parent" | "after" | "before"> & { readonly blank: string },
  ): boolean {
    const { lines } = this.#document;
    const last =
      after === undefined ? undefined : lines.findLast((line) => isUnder(line.path, pointerParts(after)));
    const first =
      before === undefined ? undefined : lines.find((line) => isUnder(line.path, pointerParts(before)));
    if (last !== undefined) this.#insertAfter(last, blank + block);
    else if (first !== undefined) this.#insertBefore(first, block + this.#lineEnd + blank);
    else {
      const near = this.#nearest([...pointerParts(parent), "-"], []);
      if (near === undefined) return false;
      this.#insertAfter(near, blank + block);
    }
    return true;
  }

  /** Lines that belong together, in runs: between two runs stand other lines. */
  #runs(belongs: (line: PlacedLine) => boolean): readonly (readonly PlacedLine[])[] {
    const runs: PlacedLine[][] = [];
    let wasOne = false;
    for (const line of this.#document.lines) {
      const isOne = belongs(line);
      if (isOne && wasOne) runs.at(-1)!.push(line);
      else if (isOne) runs.push([line]);
      wasOne = isOne;
    }
    return runs;
  }

  /** A line end where the items of a place stand apart by blank lines; else nothing. */
  #blankBetween(parent: readonly string[], first: PlacedLine): string {
    const starts = this.#document.lines.filter((line, i) => {
      if (!isUnder(line.path, parent)) return false;
      const ahead = this.#document.lines[i - 1]?.path ?? [];
      return !isUnder(ahead, line.path.slice(0, parent.length + 1));
    });
    const isSection = first.leaves.length === 0;
    const others = starts.length > 1 || !isSection ? starts : this.#document.lines.filter(isHeader);
    return others.slice(1).some((line) => this.#blankBefore(line) !== "") ? this.#lineEnd : "";
  }

  /** A line end where a blank line stands ahead of a line, behind another; else nothing. */
  #blankBefore({ start }: PlacedLine): string {
    const ahead = this.#document.text.slice(Math.max(0, start - 200), start).replace(/[ \t]+$/, "");
    const line = ahead.replace(/(?:\r\n|\n|\r)$/, "").replace(/[ \t]+$/, "");
    return line !== ahead && /[\r\n]$/.test(line) ? this.#lineEnd : "";
  }

  /** Offset behind a line and its line end. */
  #behind({ end }: PlacedLine): number {
    const at = /[^\r\n]*(?:\r\n|\n|\r)?/y;
    at.lastIndex = end;
    at.exec(this.#document.text);
    return at.lastIndex;
  }

  #insertAfter(line: PlacedLine, text: string): void {
    const at = this.#behind(line);
    const isOpen = at === this.#document.text.length && !/[\r\n]$/.test(this.#document.text);
    this.edits.push({ start: at, end: at, text: isOpen ? this.#lineEnd + text : text + this.#lineEnd });
  }

  #insertBefore({ start }: PlacedLine, text: string): void {
    this.edits.push({ start, end: start, text });
  }
}

function isHeader({ leaves }: PlacedLine): boolean {
  return leaves.length === 0;
}

function isUnder(path: readonly string[], prefix: readonly string[]): boolean {
  return path.length >= prefix.length && prefix.every((part, i) => part === path[i]);
}

function blankLinesAt(text: string, offset: number): string {
  const blank = /(?:[ \t]*[\r\n])*/y;
  blank.lastIndex = offset;
  return blank.exec(text)?.[0] ?? "";
}
