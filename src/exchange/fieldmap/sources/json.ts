import { readJson } from "../../../model/index.ts";
import type { StructuralChange } from "../structural-change.ts";
import {
  type ExportTree,
  type Leaf,
  LeafMap,
  NONE,
  newObject,
  pointerPart,
  type TreeList,
  type TreeObject,
  type TreeValue,
} from "../tree.ts";
import { type JsonContainer, type JsonMember, restructureJson } from "./json-structure.ts";

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
  const root = walk.value("");
  const { leaves } = walk;
  const restructure = (changes: readonly StructuralChange[]) => {
    const again = new Walk(text, new Map());
    again.value("");
    return restructureJson(changes, { text, leaves, containers: again.containers!, write: writeJson });
  };
  return { root, leaves, nothing: NONE, write: writeJson, restructure };
}

class Walk {
  readonly leaves = new LeafMap();
  /** Objects and lists with their members, where they are asked for: only changes of the structure need them. */
  readonly containers: Map<string, JsonContainer> | undefined;
  readonly #text: string;
  #at = 0;

  constructor(text: string, containers?: Map<string, JsonContainer>) {
    this.#text = text;
    this.containers = containers;
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
    const members = this.#begin(pointer, "object");
    while (this.#next("}")) {
      const start = this.#at;
      const name = JSON.parse(this.#match(STRING)) as string;
      this.#match(SPACE);
      this.#at += 1;
      const place = pointer + pointerPart(name);
      object[name] = this.value(place);
      members?.push({ pointer: place, start, end: this.#at });
    }
    this.#end(pointer);
    return object;
  }

  #list(pointer: string): TreeList {
    const list: TreeList = [];
    const members = this.#begin(pointer, "list");
    while (this.#next("]")) {
      const start = this.#at;
      const place = pointer + pointerPart(list.length);
      list.push(this.value(place));
      members?.push({ pointer: place, start, end: this.#at });
    }
    this.#end(pointer);
    return list;
  }

  #begin(pointer: string, kind: JsonContainer["kind"]): JsonMember[] | undefined {
    if (this.containers === undefined) return undefined;
    const members: JsonMember[] = [];
    this.containers.set(pointer, { kind, open: this.#at + 1, close: this.#at + 1, members });
    return members;
  }

  #end(pointer: string): void {
    const container = this.containers?.get(pointer);
    if (container !== undefined) container.close = this.#at - 1;
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
