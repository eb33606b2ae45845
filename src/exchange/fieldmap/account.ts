import { pointerParts } from "../../base/findings/index.ts";
import type { Interpretation, Origin } from "./interpretation.ts";
import type { LoadedMap } from "./load-map.ts";
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
  configuration: unknown,
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
    fields: leafPointers(configuration).map((pointer) => accounted(pointer, origins)),
  };
}

const OF_THE_DOCUMENT = new Set(["/kind", "/schemaVersion", "/$schema"]);

function accounted(pointer: string, origins: ReadonlyMap<string, Origin>): AccountedField {
  const origin = origins.get(pointer);
  if (origin === undefined) return { pointer, origin: OF_THE_DOCUMENT.has(pointer) ? "boothkeep" : "base" };
  return { pointer, origin: origin.kind, ...("pointer" in origin ? { from: origin.pointer } : {}) };
}

function ignoredParts(tree: ExportTree, { map, query }: LoadedMap, rest: readonly Leaf[]) {
  const pointers = new Set<string>();
  const parts = (map.ignore ?? []).map(({ each, reason }) => {
    const found =
      typeof tree.root === "object" && tree.root !== null ? query(each).query(tree.root).nodes : [];
    const roots = new Set(found.map(({ location }) => location.map(pointerPart).join("")));
    const hit = rest.filter(({ pointer }) => !pointers.has(pointer) && isUnder(pointer, roots));
    for (const { pointer } of hit) pointers.add(pointer);
    return { each, reason, values: hit.length };
  });
  return { pointers, parts };
}

function isUnder(pointer: string, roots: ReadonlySet<string>): boolean {
  for (let at = pointer; at !== ""; at = at.slice(0, at.lastIndexOf("/"))) if (roots.has(at)) return true;
  return roots.has("");
}

/** JSON Pointers of every leaf of a document. */
export function leafPointers(document: unknown): readonly string[] {
  const found: string[] = [];
  const visit = (value: unknown, at: string): void => {
    if (typeof value !== "object" || value === null) found.push(at);
    else if (Array.isArray(value)) for (let i = 0; i < value.length; i += 1) visit(value[i], `${at}/${i}`);
    else for (const [name, inner] of Object.entries(value)) visit(inner, at + pointerPart(name));
  };
  visit(document, "");
  return found;
}

/** "/out/3/gain" for people: "out, 3, gain". */
export function exportPlaceWords(pointer: string): string {
  return pointer === "" ? "the whole export" : pointerParts(pointer).join(", ");
}
