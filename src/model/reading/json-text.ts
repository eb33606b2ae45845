import { pointer } from "../../base/findings/index.ts";

/** Line and column, both from 1, in a text. Columns count UTF-16 units. */
export interface TextPosition {
  readonly line: number;
  readonly column: number;
}

/** The first thing that is wrong with a text as strict JSON (RFC 8259, and I-JSON's unique names, RFC 7493). */
export interface JsonFault {
  readonly kind: "syntax" | "duplicate-name" | "number-range" | "surrogate";
  /** What is wrong, without a full stop. */
  readonly words: string;
  /** JSON Pointer of the value in which it is wrong. */
  readonly pointer: string;
  readonly offset: number;
}

type Path = readonly (string | number)[];

class FaultFound extends Error {
  readonly fault: JsonFault;
  constructor(fault: JsonFault) {
    super(fault.words);
    this.fault = fault;
  }
}

/** The first fault of a text, or undefined if it is strict JSON. */
export function jsonFault(text: string): JsonFault | undefined {
  try {
    new JsonWalk(text, () => {}).document();
    return undefined;
  } catch (error) {
    if (error instanceof FaultFound) return error.fault;
    throw error;
  }
}

/** Where each value of a strict JSON text begins, by JSON Pointer. */
export function valuePositions(text: string): ReadonlyMap<string, TextPosition> {
  const positions = new Map<string, TextPosition>();
  const at = positionFinder(text);
  new JsonWalk(text, (path, offset) => positions.set(pointer(...path), at(offset))).document();
  return positions;
}

/** Line and column of an offset. */
export function textPosition(text: string, offset: number): TextPosition {
  return positionFinder(text)(offset);
}

function positionFinder(text: string): (offset: number) => TextPosition {
  const starts = [0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return (offset) => {
    let low = 0;
    let high = starts.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: offset - starts[low]! + 1 };
  };
}

const SPACE = /[ \t\n\r]*/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
/** With the u flag, pairs are one character: what is left of the category Cs stands alone. */
const LONE_SURROGATE = /\p{Cs}/u;
const NUMBER = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const WORD = /true|false|null/y;

/** Reads a text value by value; slower than JSON.parse, for saying where something stands. */
class JsonWalk {
  readonly #text: string;
  readonly #onValue: (path: Path, offset: number) => void;
  #at = 0;

  constructor(text: string, onValue: (path: Path, offset: number) => void) {
    this.#text = text;
    this.#onValue = onValue;
  }

  document(): void {
    this.#value([]);
    this.#match(SPACE);
    if (this.#at < this.#text.length)
      this.#fail("syntax", "there is more text after the end of the document", []);
  }

  #value(path: Path): void {
    this.#match(SPACE);
    this.#onValue(path, this.#at);
    const char = this.#text[this.#at];
    if (char === "{") this.#object(path);
    else if (char === "[") this.#array(path);
    else if (char === '"') this.#string(path);
    else if (this.#match(WORD) === undefined) this.#number(path);
  }

  #number(path: Path): void {
    const start = this.#at;
    const number = this.#match(NUMBER);
    if (number === undefined) this.#fail("syntax", this.#unexpected(), path);
    if (!Number.isFinite(Number(number))) {
      this.#at = start;
      this.#fail("number-range", `the number ${number.slice(0, 24)} is larger than any number can be`, path);
    }
  }

  #object(path: Path): void {
    const names = new Set<string>();
    this.#at += 1;
    this.#match(SPACE);
    if (this.#take("}")) return;
    do {
      this.#match(SPACE);
      const start = this.#at;
      if (this.#text[start] !== '"') this.#fail("syntax", "a name in double quotes was expected", path);
      const name = this.#string(path);
      if (names.has(name)) {
        this.#at = start;
        this.#fail("duplicate-name", `the name "${name}" stands twice in one object`, [...path, name]);
      }
      names.add(name);
      this.#match(SPACE);
      if (!this.#take(":")) this.#fail("syntax", `a colon was expected after "${name}"`, path);
      this.#value([...path, name]);
      this.#match(SPACE);
    } while (this.#take(","));
    if (!this.#take("}")) this.#fail("syntax", `a comma or } was expected; ${this.#unexpected()}`, path);
  }

  #array(path: Path): void {
    this.#at += 1;
    this.#match(SPACE);
    if (this.#take("]")) return;
    let index = 0;
    do {
      this.#value([...path, index]);
      index += 1;
      this.#match(SPACE);
    } while (this.#take(","));
    if (!this.#take("]")) this.#fail("syntax", `a comma or ] was expected; ${this.#unexpected()}`, path);
  }

  #string(path: Path): string {
    const start = this.#at;
    this.#at += 1;
    for (;;) {
      const code = this.#text.charCodeAt(this.#at);
      if (code === 0x22) break;
      if (Number.isNaN(code)) this.#fail("syntax", "the text ends inside a string", path);
      if (code < 0x20) this.#fail("syntax", "a string is not closed before the end of its line", path);
      if (code !== 0x5c) this.#at += 1;
      else if (this.#match(ESCAPE) === undefined) this.#fail("syntax", "a string holds a wrong escape", path);
    }
    this.#at += 1;
    const value = JSON.parse(this.#text.slice(start, this.#at)) as string;
    if (LONE_SURROGATE.test(value)) {
      this.#at = start;
      this.#fail("surrogate", "a string holds half of a surrogate pair, which is no character", path);
    }
    return value;
  }

  #unexpected(): string {
    const found = /^[\w.+-]{1,16}|^./su.exec(this.#text.slice(this.#at, this.#at + 16))?.[0];
    if (found === undefined) return "the text ends too early";
    return /^[NI+]|^-I/.test(found)
      ? `'${found}' is no JSON number`
      : `'${found.replace(/[\p{Cc}]/gu, "?")}' was found`;
  }

  #match(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.#at;
    const found = pattern.exec(this.#text)?.[0];
    if (found !== undefined) this.#at += found.length;
    return found;
  }

  #take(char: string): boolean {
    if (this.#text[this.#at] !== char) return false;
    this.#at += 1;
    return true;
  }

  #fail(kind: JsonFault["kind"], words: string, path: Path): never {
    throw new FaultFound({ kind, words, pointer: pointer(...path), offset: this.#at });
  }
}
