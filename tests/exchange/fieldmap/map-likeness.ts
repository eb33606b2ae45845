import { decodeText } from "../../../src/exchange/fieldmap/encoding.ts";
import type { LoadedMap } from "../../../src/exchange/fieldmap/index.ts";
import { interpret } from "../../../src/exchange/fieldmap/interpret.ts";
import { readTree } from "../../../src/exchange/fieldmap/sources/index.ts";

/** How much of a finished map another one has. */
export interface Likeness {
  /** Rules of the finished map that read something of the export. */
  readonly rules: number;
  /** Those for which the other map reads the same values into the same fields, at least nineteen of twenty. */
  readonly found: number;
  readonly missed: readonly string[];
  /** Fields that the other map reads otherwise. */
  readonly wrong: readonly string[];
}

/**
 * Compares two maps by what they make of an export: for every value, by its offset in the text, the field and what is read.
 * Keys that follow from places count by the keys themselves.
 */
export function share(bytes: Uint8Array, finished: LoadedMap, other: LoadedMap): Likeness {
  const [want, have] = [readings(bytes, finished), readings(bytes, other)];
  const missed: string[] = [];
  const wrong: string[] = [];
  let found = 0;
  for (const [field, values] of want) {
    const own = have.get(field);
    const same = [...values].filter(([place, value]) => own?.get(place) === value).length;
    if (same >= values.size * 0.95) found += 1;
    else if (own === undefined) missed.push(field);
    else wrong.push(`${field} ${same}/${values.size}`);
  }
  for (const field of have.keys()) if (!want.has(field)) wrong.push(`${field} (of no rule)`);
  return { rules: want.size, found, missed, wrong };
}

/** By field: what is read at each place of the text. */
function readings(
  bytes: Uint8Array,
  { map, ...loaded }: LoadedMap,
): ReadonlyMap<string, ReadonlyMap<string, unknown>> {
  const decoded = decodeText(bytes, map.source.encoding);
  const tree = readTree(decoded.text, map.source);
  const { draft, origins } = interpret(tree, { map, ...loaded }, {});
  const found = new Map<string, Map<string, unknown>>();
  for (const [pointer, origin] of origins) {
    if (origin.kind === "map" || origin.kind === "joined") continue;
    const field = pointer
      .slice(1)
      .replace(/\/\d+(?=\/|$)/g, "[]")
      .replaceAll("/", ".");
    const leaf = tree.leaves.get(origin.pointer);
    const place = origin.kind === "place" ? `key ${String(valueAt(draft, pointer))}` : `${leaf?.start}`;
    const known = found.get(field) ?? new Map<string, unknown>();
    found.set(field, known);
    known.set(
      `${place} ${origin.kind === "export" && field.endsWith("[]") ? pointer.split("/").at(-1) : ""}`,
      valueAt(draft, pointer),
    );
  }
  return found;
}

function valueAt(document: unknown, pointer: string): unknown {
  let value = document;
  for (const part of pointer.split("/").slice(1)) value = (value as Record<string, unknown>)[part];
  return value;
}
