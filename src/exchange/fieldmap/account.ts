import { pointerParts } from "../../base/findings/index.ts";
import { leaves } from "../../model/index.ts";
import type { Interpretation, Origin } from "./interpretation.ts";
import type { LoadedMap } from "./load-map.ts";
import { PlaceCount } from "./place-count.ts";
import { type ExportTree, type Leaf, lineFinder, pointerPart } from "./tree.ts";

/** A value of the export that no rule reads and that nobody left out on purpose. */
export interface UnknownValue {
  /** JSON Pointer in the export's tree. */
  readonly pointer: string;
  readonly raw: string;
  readonly line: number;
}

/** What became of the export, and where the configuration comes from: every value and every field is in it. */
export interface Account {
  /** Values of the export, by what became of them. */
  readonly counts: {
    readonly values: number;
    readonly used: number;
    readonly ignored: number;
    readonly unknown: number;
  };
  readonly ignored: readonly { readonly each: string; readonly reason: string; readonly values: number }[];
  readonly unknown: readonly UnknownValue[];
  /** Every field of the configuration with its origin, in the order of the document. */
  readonly fields: readonly AccountedField[];
}

/** Where a value of a configuration came from. */
export interface AccountedField {
  /** JSON Pointer in the configuration. */
  readonly pointer: string;
  /**
   * `export`: a value of the export, at `from`. `place`: follows from the place `from` in the export. `joined`: made of
   * other fields. `map`: the map's own value. `base`: the configuration that was laid under. `boothkeep`: what the
   * document says of itself.
   */
  readonly origin: Origin["kind"] | "base" | "boothkeep";
  readonly from?: string;
}

/** Balances a reading: each value of the export, each field of the configuration. */
export function accountOf(
  tree: ExportTree,
  text: string,
  loaded: LoadedMap,
  interpretation: Interpretation,
  configuration: object,
): Account {
  const { origins } = interpretation;
  const used = new Set([...interpretation.used, ...tree.nothing]);
  const rest = [...tree.leaves.values()]
    .filter(({ pointer }) => !used.has(pointer))
    .sort((a, b) => a.start - b.start);
  const ignored = ignoredParts(tree, loaded, rest);
  const lineAt = lineFinder(text);
  const unknown = rest.filter(({ pointer }) => !ignored.pointers.has(pointer));
  return {
    counts: {
      values: tree.leaves.size,
      used: tree.leaves.size - rest.length,
      ignored: ignored.pointers.size,
      unknown: unknown.length,
    },
    ignored: ignored.parts,
    unknown: unknown.map(({ pointer, raw, start }) => ({ pointer, raw, line: lineAt(start) })),
    fields: leaves(configuration).map(({ pointer }) => accounted(pointer, origins)),
  };
}

const OF_THE_DOCUMENT = new Set(["/kind", "/schemaVersion", "/$schema"]);

function accounted(pointer: string, origins: ReadonlyMap<string, Origin>): AccountedField {
  const origin = origins.get(pointer);
  if (origin === undefined) return { pointer, origin: OF_THE_DOCUMENT.has(pointer) ? "boothkeep" : "base" };
  return { pointer, origin: origin.kind, ...("pointer" in origin ? { from: origin.pointer } : {}) };
}

/** What is left out on purpose: a value belongs to the first of the map's parts that holds it. */
function ignoredParts(tree: ExportTree, { map, query }: LoadedMap, rest: readonly Leaf[]) {
  const ignore = map.ignore ?? [];
  const partAt = new Map<string, number>();
  const places = new PlaceCount();
  for (const [part, { each }] of ignore.entries()) {
    if (typeof tree.root !== "object" || tree.root === null) break;
    for (const { location } of places.nodes(query(each), tree.root)) {
      const pointer = location.map(pointerPart).join("");
      if (!partAt.has(pointer)) partAt.set(pointer, part);
    }
  }
  const values = ignore.map(() => 0);
  const pointers = new Set<string>();
  for (const { pointer } of rest) {
    const part = partAround(pointer, partAt);
    if (part === undefined) continue;
    pointers.add(pointer);
    values[part] = values[part]! + 1;
  }
  return {
    pointers,
    parts: ignore.map(({ each, reason }, part) => ({ each, reason, values: values[part]! })),
  };
}

/** The first part that holds a place or something around it. */
function partAround(pointer: string, partAt: ReadonlyMap<string, number>): number | undefined {
  if (partAt.size === 0) return undefined;
  let found = partAt.get("");
  for (let at = pointer; at !== ""; at = at.slice(0, at.lastIndexOf("/"))) {
    const part = partAt.get(at);
    if (part !== undefined && (found === undefined || part < found)) found = part;
  }
  return found;
}

/** "/out/3/gain" for people: "out, 3, gain". */
export function exportPlaceWords(pointer: string): string {
  return pointer === "" ? "the whole export" : pointerParts(pointer).join(", ");
}
