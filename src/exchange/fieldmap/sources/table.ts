import { parse } from "csv-parse/sync";
import { pointerParts } from "../../../base/findings/index.ts";
import type { TableSource } from "../../../model/index.ts";
import type { StructuralChange } from "../structural-change.ts";
import { withValues } from "../text-edit.ts";
import {
  type ExportTree,
  has,
  type Leaf,
  LeafMap,
  NONE,
  newObject,
  notReadable,
  pointerPart,
  type TreeList,
  type TreeObject,
} from "../tree.ts";
import { type PlacedLine, restructureLines } from "./line-structure.ts";

interface Cell {
  readonly raw: string;
  readonly start: number;
  readonly end: number;
  readonly quoted: boolean;
}

/**
 * Reads separated values (RFC 4180). csv-parse decides whether the text is that and what the fields hold; a scan of its
 * own finds where each field stands, and must find the same.
 *
 * @throws BoothkeepError export.not-readable
 */
export function tableTree(text: string, source: TableSource): ExportTree {
  const quote = source.quote ?? '"';
  const rows = scanRows(text, source.delimiter, quote);
  compareWithParser(rows, text, source.delimiter, quote);
  const format = { delimiter: source.delimiter, quote, narrow: rows.some((row) => row.length === 1) };
  const builder = new Builder(text, source);
  for (const row of rows) builder.add(row);
  builder.end();
  const { root, leaves } = builder;
  const write = (leaf: Leaf, raw: string) => writeCell(leaf, raw, format);
  const restructure = (changes: readonly StructuralChange[]) =>
    restructureLines(changes, { text, lines: rowLines(text, leaves, write), newLines: () => undefined });
  return { root, leaves, nothing: NONE, write, restructure };
}

/** Rows as lines: all values of a row stand in one place. */
function rowLines(
  text: string,
  leaves: ReadonlyMap<string, Leaf>,
  write: ExportTree["write"],
): readonly PlacedLine[] {
  const rows = new Map<string, Leaf[]>();
  for (const leaf of leaves.values()) {
    if (leaf.pointer.startsWith("/title/")) continue;
    const row = leaf.pointer.slice(0, leaf.pointer.lastIndexOf("/"));
    const known = rows.get(row);
    if (known === undefined) rows.set(row, [leaf]);
    else known.push(leaf);
  }
  const lines = [...rows].map(([row, cells]): PlacedLine => {
    const first = cells[0]!.start;
    const start = Math.max(text.lastIndexOf("\n", first - 1), text.lastIndexOf("\r", first - 1)) + 1;
    const end = cells.at(-1)!.end;
    return {
      start,
      end,
      path: pointerParts(row),
      leaves: cells.map(({ pointer }) => pointer),
      rewrite: (_path, raws) => withValues(text, { start, end }, cells, raws, write),
    };
  });
  return lines.sort((a, b) => a.start - b.start);
}

class Builder {
  readonly root: TreeObject | TreeList;
  readonly leaves = new LeafMap();
  readonly #text: string;
  readonly #source: TableSource;
  readonly #headers = new Map<string, readonly string[]>();
  /** Rows of the one table, rows ahead of it, and rows that name its columns. */
  readonly #rows: TreeList = [];
  readonly #title: TreeList = [];
  readonly #heading: (readonly Cell[])[] = [];

  constructor(text: string, source: TableSource) {
    this.#text = text;
    this.#source = source;
    if (source.header === "by-mark") this.root = newObject();
    else if (source.titleRows === undefined) this.root = this.#rows;
    else this.root = Object.assign(newObject(), { title: this.#title, rows: this.#rows });
  }

  add(row: readonly Cell[]): void {
    if (this.#source.header === "by-mark") this.#marked(row);
    else if (this.#source.header === "none") this.#row(this.#rows, "", row, undefined);
    else this.#plain(row);
  }

  end(): void {
    if (this.#source.header !== "first-row" || this.#headers.size > 0) return;
    if (this.#title.length > 0 || this.#heading.length > 0)
      throw notReadable("The export ends before the header rows that the map speaks of.", this.#text, 0);
  }

  #plain(row: readonly Cell[]): void {
    const { titleRows = 0, headerRows = 1 } = this.#source;
    if (this.#title.length < titleRows) this.#row(this.#title, "/title", row, undefined);
    else if (this.#heading.length < headerRows) {
      this.#heading.push(row);
      if (this.#heading.length === headerRows) this.#header("", namesOf(this.#heading));
    } else this.#row(this.#rows, titleRows > 0 ? "/rows" : "", row, this.#headers.get(""));
  }

  #marked(row: readonly Cell[]): void {
    const root = this.root as TreeObject;
    const first = row[0]!;
    const { mark = "#" } = this.#source;
    if (first.raw.startsWith(mark)) {
      const name = first.raw.slice(mark.length);
      this.#header(name, row.slice(1));
      if (!has(root, name)) root[name] = [];
      return;
    }
    const names = this.#headers.get(first.raw);
    if (names === undefined) {
      throw notReadable(
        `No header row names the columns of the rows '${first.raw.slice(0, 40)}'.`,
        this.#text,
        first.start,
      );
    }
    this.#row(root[first.raw] as TreeList, pointerPart(first.raw), row.slice(1), names);
  }

  #header(name: string, cells: readonly Pick<Cell, "raw" | "start">[]): void {
    const names = cells.map(({ raw }) => raw);
    const doubled = cells.find(({ raw }, i) => names.indexOf(raw) !== i);
    if (doubled !== undefined) {
      throw notReadable(
        doubled.raw === ""
          ? "Two columns of the header row have no name. Where rows stand ahead of it, the map's source says how many ('titleRows')."
          : `The column '${doubled.raw.slice(0, 40)}' stands twice in a header row.`,
        this.#text,
        doubled.start,
      );
    }
    if (this.#headers.has(name)) {
      throw notReadable(
        `The rows '${name.slice(0, 40)}' have two header rows.`,
        this.#text,
        cells[0]?.start ?? 0,
      );
    }
    this.#headers.set(name, names);
  }

  #row(list: TreeList, at: string, cells: readonly Cell[], names: readonly string[] | undefined): void {
    const isShort = this.#source.ragged === true && cells.length <= (names?.length ?? 0);
    if (names !== undefined && names.length !== cells.length && !isShort) {
      const words = `A row has ${cells.length} fields where its header row names ${names.length}.`;
      throw notReadable(words, this.#text, cells[0]?.start ?? 0);
    }
    const pointer = at + pointerPart(list.length);
    const row: TreeObject | TreeList = names === undefined ? [] : newObject();
    cells.forEach(({ raw, start, end, quoted }, i) => {
      if (Array.isArray(row)) row.push(raw);
      else row[names![i]!] = raw;
      const place = pointer + pointerPart(names?.[i] ?? i);
      this.leaves.set(place, { pointer: place, raw, start, end, style: quoted ? "quoted" : "bare" });
    });
    list.push(row);
  }
}

/** The names of columns over which several rows stand: an empty field of all but the last is that to its left. */
function namesOf(rows: readonly (readonly Cell[])[]): readonly Pick<Cell, "raw" | "start">[] {
  const width = Math.max(...rows.map((row) => row.length));
  const above = rows.map((row, i) => {
    let known = "";
    return Array.from({ length: width }, (_none, column) => {
      const own = (row[column]?.raw ?? "").trim();
      known = own !== "" || i === rows.length - 1 ? own : known;
      return known;
    });
  });
  if (rows.length === 1) return rows[0]!;
  return Array.from({ length: width }, (_none, column) => ({
    raw: above.flatMap((names) => (names[column] === "" ? [] : [names[column]!])).join(" "),
    start: rows[0]![column]?.start ?? rows[0]![0]!.start,
  }));
}

/** Rows of fields with their offsets; blank lines are none. */
function scanRows(text: string, delimiter: string, quote: string): Cell[][] {
  const rows: Cell[][] = [];
  let row: Cell[] = [];
  let at = 0;
  while (at < text.length || row.length > 0) {
    const cell = text[at] === quote ? quotedCell(text, at, quote) : bareCell(text, at, delimiter);
    row.push(cell);
    at = cell.end;
    if (text[at] === delimiter) {
      at += 1;
      continue;
    }
    if (at < text.length && text[at] !== "\r" && text[at] !== "\n") {
      throw notReadable("Text follows after the closing quote of a field.", text, at);
    }
    if (text.startsWith("\r\n", at)) at += 1;
    at += 1;
    if (row.length > 1 || row[0]!.raw !== "" || row[0]!.quoted) rows.push(row);
    row = [];
  }
  return rows;
}

function quotedCell(text: string, start: number, quote: string): Cell {
  let at = start + 1;
  for (;;) {
    at = text.indexOf(quote, at);
    if (at < 0) throw notReadable("A quoted field is not closed.", text, start);
    if (text[at + 1] !== quote) break;
    at += 2;
  }
  const raw = text.slice(start + 1, at).replaceAll(quote + quote, quote);
  return { raw, start, end: at + 1, quoted: true };
}

function bareCell(text: string, start: number, delimiter: string): Cell {
  let end = start;
  while (end < text.length && text[end] !== delimiter && text[end] !== "\n" && text[end] !== "\r") end += 1;
  return { raw: text.slice(start, end), start, end, quoted: false };
}

/** Rows of one width are parsed together: the parser makes an error, if an unspoken one, of each row of another. */
function compareWithParser(
  rows: readonly (readonly Cell[])[],
  text: string,
  delimiter: string,
  quote: string,
): void {
  for (let from = 0; from < rows.length; ) {
    let to = from + 1;
    while (to < rows.length && rows[to]!.length === rows[from]!.length) to += 1;
    const [start, end] = [rows[from]![0]!.start, rows[to - 1]!.at(-1)!.end];
    compareRows(
      rows.slice(from, to),
      parseRows(text.slice(start, end), text, start, { delimiter, quote }),
      text,
    );
    from = to;
  }
}

function compareRows(
  rows: readonly (readonly Cell[])[],
  parsed: readonly (readonly string[])[],
  text: string,
): void {
  const differs = rows.findIndex((row, i) => {
    const other = parsed[i];
    return other?.length !== row.length || row.some(({ raw }, j) => raw !== other[j]);
  });
  if (differs < 0 && rows.length === parsed.length) return;
  throw notReadable(
    "A row can be read in two ways: check its quotes.",
    text,
    rows[Math.max(0, differs)]![0]!.start,
  );
}

function parseRows(
  part: string,
  text: string,
  start: number,
  { delimiter, quote }: { readonly delimiter: string; readonly quote: string },
): string[][] {
  const lineEnds = ["\r\n", "\n", "\r"];
  try {
    return parse(part, {
      delimiter,
      quote,
      escape: quote,
      record_delimiter: lineEnds,
      skip_empty_lines: true,
    });
  } catch (cause) {
    const words = cause instanceof Error ? cause.message.slice(0, 120) : "unknown reason";
    throw notReadable(`The export is no table of separated values: ${words}.`, text, start);
  }
}

interface CellFormat {
  readonly delimiter: string;
  readonly quote: string;
  /** Whether some row has one field alone: if that were empty without quotes, the row would be a blank line. */
  readonly narrow: boolean;
}

function writeCell({ style }: Leaf, raw: string, { delimiter, quote, narrow }: CellFormat): string {
  const special = raw.includes(delimiter) || raw.includes(quote) || /[\r\n]/.test(raw);
  const quoted = special || style === "quoted" || (narrow && raw === "");
  return quoted ? `${quote}${raw.replaceAll(quote, quote + quote)}${quote}` : raw;
}
