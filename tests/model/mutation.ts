import fc from "fast-check";
import { pointer } from "../../src/base/findings/index.ts";

export type Path = readonly (string | number)[];

/** One random change of one place of a document. */
export interface Mutation {
  readonly path: Path;
  readonly document: unknown;
}

/** Every place of a document below its root. */
export function placesOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== "object" || value === null) return [path];
  const own = path.length === 0 ? [] : [path];
  return [
    ...own,
    ...Object.entries(value).flatMap(([name, item]) => {
      return placesOf(item, [...path, Array.isArray(value) ? Number(name) : name]);
    }),
  ];
}

export function at(document: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, part) => (value as Record<string | number, unknown>)[part], document);
}

/** A copy of a document with one place set; undefined takes the place out. */
export function withValue(document: unknown, path: Path, value: unknown): unknown {
  const copy = structuredClone(document);
  const holder = at(copy, path.slice(0, -1));
  const last = path.at(-1)!;
  if (value === undefined && Array.isArray(holder)) holder.splice(Number(last), 1);
  else if (value === undefined) delete (holder as Record<string, unknown>)[last];
  else (holder as Record<string | number, unknown>)[last] = value;
  return copy;
}

const OTHER_VALUES = [
  null,
  true,
  -1,
  0,
  3.7,
  1e9,
  "",
  "x",
  "left hf",
  "2026-02-30",
  [],
  {},
  undefined,
] as const;

/** Any change at all: another value, another type, a field taken out, a field added. */
export function mutations(document: unknown): fc.Arbitrary<Mutation> {
  const places = placesOf(document);
  const change = fc
    .tuple(fc.constantFrom(...places), fc.constantFrom(...OTHER_VALUES))
    .map(([path, value]) => ({ path, document: withValue(document, path, value) }));
  const objects = places.filter((path) => {
    const value = at(document, path);
    return typeof value === "object" && value !== null && !Array.isArray(value);
  });
  const addition = fc.constantFrom(...objects).map((path) => ({
    path: [...path, "tilt"],
    document: withValue(document, [...path, "tilt"], 1),
  }));
  return fc.oneof({ weight: 4, arbitrary: change }, { weight: 1, arbitrary: addition });
}

/** A change that keeps the sort of value: a number moved, a yes turned to no, a text shortened. */
export function smallMutations(document: unknown): fc.Arbitrary<Mutation> {
  const leaves = placesOf(document).filter((path) => {
    const value = at(document, path);
    return (
      (typeof value !== "object" || value === null) &&
      !["kind", "schemaVersion", "$schema"].includes(String(path.at(-1)))
    );
  });
  return fc
    .tuple(fc.constantFrom(...leaves), fc.constantFrom(0.5, 2, 1.013, -1), fc.boolean())
    .map(([path, factor, add]) => {
      const value = at(document, path);
      const next =
        typeof value === "number"
          ? add
            ? value + factor
            : Number((value * factor).toPrecision(8))
          : typeof value === "boolean"
            ? !value
            : `${String(value)}2`;
      return { path, document: withValue(document, path, next) };
    });
}

export const pointerOf = (path: Path): string => pointer(...path);
