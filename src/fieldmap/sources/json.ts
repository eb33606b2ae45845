import { readJson } from "../../model/index.ts";
import {
  type ExportTree,
  type Leaf,
  newObject,
  pointerPart,
  type TreeList,
  type TreeObject,
  type TreeValue,
} from "../tree.ts";

const LITERAL = /[^\s,\]}]+/y;
const SPACE = /[ \t\n\r]*/y;
const STRING = /"(?:[^"\\]|\\.)*"/sy;
const JSON_LITERAL = /^(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)$/;

/**
 * Reads JSON. {@link readJson} decides whether it is: this walk over a text that is known to be strict JSON only finds
 * where each value stands.
 *
 * @throws BoothkeepError input.not-json, input.duplicate-name, input.too-deep, input.number-range
 */
export function jsonTree(text: string): ExportTree {
  readJson(text);
  const walk = new Walk(text);
  return { root: walk.value(""), leaves: walk.leaves, write: writeJson };
}

class Walk {
  readonly leaves = new Map<string, Leaf>();
  readonly #text: string;
  #at = 0;

  constructor(text: string) {
    this.#text = text;
  }

  value(pointer: string): TreeValue {
    this.#match(SPACE);
    const start = this.#at;
    const char = this.#text[start];
    if (char === "{") return this.#object(pointer);
    if (char === "[") return this.#list(pointer);
    const literal = this.#match(char === '"' ? STRING : LITERAL);
    const value = JSON.parse(literal) as string | number | boolean | null;
    const [raw, style] =
      typeof value === "string" ? [value, "json-string" as const] : [literal, "json-literal" as const];
    this.leaves.set(pointer, { pointer, raw, start, end: this.#at, style });
    return value;
  }

  #object(pointer: string): TreeObject {
    const object = newObject();
    while (this.#next("}")) {
      const name = JSON.parse(this.#match(STRING)) as string;
      this.#match(SPACE);
      this.#at += 1;
      object[name] = this.value(pointer + pointerPart(name));
    }
    return object;
  }

  #list(pointer: string): TreeList {
    const list: TreeList = [];
    while (this.#next("]")) list.push(this.value(pointer + pointerPart(list.length)));
    return list;
  }

  /** Steps over a bracket or comma to the next member; false after the closing bracket. */
  #next(close: string): boolean {
    this.#match(SPACE);
    if (this.#text[this.#at] === close) {
      this.#at += 1;
      return false;
    }
    this.#at += 1;
    this.#match(SPACE);
    if (this.#text[this.#at] !== close) return true;
    this.#at += 1;
    return false;
  }

  #match(pattern: RegExp): string {
    pattern.lastIndex = this.#at;
    const found = pattern.exec(this.#text)?.[0] ?? "";
    this.#at += found.length;
    return found;
  }
}

function writeJson({ style }: Leaf, raw: string): string {
  return style === "json-literal" && JSON_LITERAL.test(raw) ? raw : JSON.stringify(raw);
}
