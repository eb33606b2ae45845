import { XMLValidator } from "fast-xml-parser";
import type { XmlSource } from "../../../model/index.ts";
import type { StructuralChange } from "../structural-change.ts";
import {
  type ExportTree,
  has,
  LeafMap,
  type LeafStyle,
  MAX_TREE_DEPTH,
  NONE,
  newObject,
  notReadable,
  pointerPart,
  type TreeList,
  type TreeObject,
  type TreeValue,
} from "../tree.ts";
import { restructureXml, type XmlElement } from "./xml-structure.ts";
import { entity, lineEnds, writeXml } from "./xml-text.ts";

/**
 * Reads XML 1.0. A document type is refused, and with it every entity of its own: what is left are the five that XML
 * names and character references. Whether the text is well-formed is decided by fast-xml-parser; the walk here finds
 * where each value stands, and refuses what the parser lets through (a second root, text beside it).
 *
 * @throws BoothkeepError export.not-readable
 */
export function xmlTree(text: string, source: XmlSource): ExportTree {
  const doctype = text.indexOf("<!DOCTYPE");
  if (doctype >= 0) {
    throw notReadable(
      "The export has a document type (DOCTYPE); entities could swell it without limit.",
      text,
      doctype,
    );
  }
  checkDeclaration(text, source);
  const lists = new Set(source.lists ?? []);
  const walk = new Walk(text, lists);
  const root = walk.document();
  const verdict = XMLValidator.validate(text);
  if (verdict !== true) {
    const { line, col, msg } = verdict.err;
    throw notReadable(`The export is not well-formed XML: ${msg}`, text, offsetOf(text, line, col));
  }
  const { leaves } = walk;
  const restructure = (changes: readonly StructuralChange[]) => {
    const elements = new Map<string, XmlElement>();
    new Walk(text, lists, elements).document();
    return restructureXml(changes, { text, leaves, elements, write: writeXml });
  };
  return { root, leaves, nothing: NONE, write: writeXml, restructure };
}

/** Latin-1 read as UTF-8, or the other way round, would give wrong letters without a word. */
function checkDeclaration(text: string, { encoding = "utf-8" }: XmlSource): void {
  const declared = /^<\?xml[^>]*\sencoding\s*=\s*["']([^"']*)/.exec(text.slice(0, 200))?.[1]?.toLowerCase();
  if (declared === undefined) return;
  if (/^(iso-8859-1|latin-?1)$/.test(declared) === (encoding === "latin-1")) return;
  throw notReadable(`The export says that it is in ${declared}, the map says ${encoding}.`, text, 0);
}

function offsetOf(text: string, line: number, column: number): number {
  let at = 0;
  for (let i = 1; i < line; i += 1) at = text.indexOf("\n", at) + 1;
  return at + Math.max(0, column - 1);
}

/** Text beside elements without the space around it, which is there for the eye. */
function trimmed(piece: Piece, text: string): Piece {
  if (piece.style !== "xml-text") return piece;
  const whole = text.slice(piece.start, piece.end);
  const start = piece.start + whole.length - whole.trimStart().length;
  return { ...piece, raw: piece.raw.trim(), start, end: piece.start + whole.trimEnd().length };
}

const NAME = /[^\s/>=<"'&]+/y;
const SPACE = /\s*/y;

interface Piece {
  readonly raw: string;
  readonly start: number;
  readonly end: number;
  readonly style: LeafStyle;
}

class Walk {
  readonly leaves = new LeafMap();
  readonly #text: string;
  readonly #lists: ReadonlySet<string>;
  /** Filled where it is given: only changes of the structure need it. */
  readonly #elements: Map<string, XmlElement> | undefined;
  #around: XmlElement | undefined;
  #at = 0;

  constructor(text: string, lists: ReadonlySet<string>, elements?: Map<string, XmlElement>) {
    this.#text = text;
    this.#lists = lists;
    this.#elements = elements;
  }

  document(): TreeValue {
    this.#misc();
    if (this.#text[this.#at] !== "<") this.#fail("The export is not XML: it does not begin with an element");
    const tag = this.#open();
    const root = newObject();
    root[tag] = this.#element(pointerPart(tag), tag, 1);
    this.#misc();
    if (this.#at < this.#text.length) this.#fail("There is more after the end of the root element");
    return root;
  }

  /** Space, comments, processing instructions. */
  #misc(): void {
    for (;;) {
      this.#match(SPACE);
      if (this.#text.startsWith("<?", this.#at)) this.#past("?>");
      else if (this.#text.startsWith("<!--", this.#at)) this.#past("-->");
      else return;
    }
  }

  #open(): string {
    this.#at += 1;
    const name = this.#match(NAME);
    if (name === "") this.#fail("A tag has no name");
    return name;
  }

  #element(pointer: string, name: string, depth: number): TreeValue {
    if (depth > MAX_TREE_DEPTH) this.#fail(`The export is nested more than ${MAX_TREE_DEPTH} levels deep`);
    const object = newObject();
    const record = this.#begin(pointer, name);
    const closed = this.#attributes(object, pointer);
    if (record !== undefined) this.#afterTag(record, closed !== undefined);
    const pieces: Piece[] = closed === undefined ? this.#content(object, pointer, name, depth) : [closed];
    if (record !== undefined) this.#end(record);
    if (Object.keys(object).length === 0) {
      const filled = pieces.filter(({ raw }) => raw.trim() !== "");
      if (filled.length > 1) this.#fail(`The text of '${name}' is in several pieces`);
      const piece = filled[0] ?? pieces[0]!;
      this.#leaf(pointer, piece);
      return piece.raw;
    }
    pieces
      .filter(({ raw, style }) => style !== "xml-empty" && raw.trim() !== "")
      .forEach((piece, i) => {
        const member = i === 0 ? "#text" : `#text${i + 1}`;
        const own = trimmed(piece, this.#text);
        object[member] = own.raw;
        this.#leaf(pointer + pointerPart(member), own);
      });
    return object;
  }

  #begin(pointer: string, name: string): XmlElement | undefined {
    if (this.#elements === undefined) return undefined;
    const [start, end] = [this.#at - name.length - 1, this.#at];
    const around = this.#around;
    const element = {
      pointer,
      name,
      start,
      end,
      attributesEnd: end,
      content: undefined,
      children: [],
      around,
    };
    this.#elements.set(pointer, element);
    around?.children.push(element);
    this.#around = element;
    return element;
  }

  #afterTag(element: XmlElement, isClosed: boolean): void {
    const tag = this.#text.slice(element.start, this.#at - (isClosed ? 2 : 1));
    element.attributesEnd = element.start + tag.trimEnd().length;
    if (!isClosed) element.content = { start: this.#at, end: this.#at };
  }

  #end(element: XmlElement): void {
    element.end = this.#at;
    this.#around = element.around;
    if (element.content !== undefined) element.content.end = this.#text.lastIndexOf("</", this.#at);
  }

  /** Reads attributes and the end of the tag; the piece of an element that is closed at once. */
  #attributes(object: TreeObject, pointer: string): Piece | undefined {
    for (;;) {
      this.#match(SPACE);
      if (this.#text[this.#at] === ">") {
        this.#at += 1;
        return undefined;
      }
      if (this.#text.startsWith("/>", this.#at)) {
        this.#at += 2;
        return { raw: "", start: this.#at - 2, end: this.#at, style: "xml-empty" };
      }
      const name = `@${this.#match(NAME)}`;
      this.#match(SPACE);
      const equals = this.#text[this.#at] === "=";
      this.#at += 1;
      this.#match(SPACE);
      const quote = this.#text[this.#at];
      if (name === "@" || !equals || (quote !== '"' && quote !== "'")) this.#fail("A tag is broken");
      if (has(object, name)) this.#fail(`The attribute '${name.slice(1)}' stands twice in one element`);
      const start = this.#at;
      this.#at += 1;
      this.#past(quote);
      const raw = this.#unescape(
        this.#text.slice(start + 1, this.#at - 1).replace(/\r\n|[\t\n\r]/g, " "),
        start + 1,
      );
      object[name] = raw;
      const style = quote === '"' ? "xml-attribute" : "xml-attribute-single";
      this.#leaf(pointer + pointerPart(name), { raw, start, end: this.#at, style });
    }
  }

  #content(object: TreeObject, pointer: string, name: string, depth: number): Piece[] {
    const pieces: Piece[] = [];
    const own = this.#at;
    for (;;) {
      const start = this.#at;
      const next = this.#text.indexOf("<", start);
      if (next < 0) this.#fail(`The element '${name}' is not closed`);
      this.#at = next;
      if (next > start) {
        const raw = this.#unescape(lineEnds(this.#text.slice(start, next)), start);
        pieces.push({ raw, start, end: next, style: "xml-text" });
      }
      if (this.#text.startsWith("</", next)) {
        this.#close(name);
        return pieces.length === 0 ? [{ raw: "", start: own, end: own, style: "xml-text" }] : pieces;
      }
      if (this.#text.startsWith("<!--", next)) this.#past("-->");
      else if (this.#text.startsWith("<?", next)) this.#past("?>");
      else if (this.#text.startsWith("<![CDATA[", next)) {
        this.#past("]]>");
        const raw = lineEnds(this.#text.slice(next + 9, this.#at - 3));
        pieces.push({ raw, start: next, end: this.#at, style: "xml-cdata" });
      } else this.#child(object, pointer, depth);
    }
  }

  #child(object: TreeObject, pointer: string, depth: number): void {
    const at = this.#at;
    const name = this.#open();
    const inside = pointer + pointerPart(name);
    if (this.#lists.has(name)) {
      const list = (has(object, name) ? object[name] : []) as TreeList;
      object[name] = list;
      list.push(this.#element(inside + pointerPart(list.length), name, depth + 1));
      return;
    }
    if (has(object, name)) {
      this.#at = at;
      this.#fail(`The element '${name}' stands twice; the map's source does not name it in its lists`);
    }
    object[name] = this.#element(inside, name, depth + 1);
  }

  #close(name: string): void {
    this.#at += 2;
    if (this.#match(NAME) !== name) this.#fail(`The element '${name}' is closed by another name`);
    this.#match(SPACE);
    if (this.#text[this.#at] !== ">") this.#fail("A closing tag is broken");
    this.#at += 1;
  }

  #leaf(pointer: string, piece: Piece): void {
    this.leaves.set(pointer, { pointer, ...piece });
  }

  #unescape(text: string, offset: number): string {
    if (text.includes("<")) this.#fail("An attribute holds a '<'");
    return text.replace(/&([^;\s]*);?/g, (all, name: string, at: number) => {
      const known = all.endsWith(";") ? entity(name) : undefined;
      if (known === undefined) {
        this.#at = offset + at;
        this.#fail(`'${all.slice(0, 24)}' is no entity of XML itself`);
      }
      return known;
    });
  }

  #past(end: string): void {
    const found = this.#text.indexOf(end, this.#at);
    if (found < 0) this.#fail(`The export ends before '${end}'`);
    this.#at = found + end.length;
  }

  #match(pattern: RegExp): string {
    pattern.lastIndex = this.#at;
    const found = pattern.exec(this.#text)?.[0] ?? "";
    this.#at += found.length;
    return found;
  }

  #fail(words: string): never {
    throw notReadable(`${words}.`, this.#text, Math.min(this.#at, this.#text.length));
  }
}
