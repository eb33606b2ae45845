import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  COMPUTABLE,
  CROSSOVER_FAMILY_NAMES,
  FILTER_KIND_NAMES,
  GRAPHIC_LAYOUTS,
} from "../../src/acoustics/index.ts";

interface Node {
  readonly $ref?: string;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly oneOf?: readonly Node[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
}

const schema = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../schemas/configuration.schema.json"), "utf8"),
) as { readonly $defs: Readonly<Record<string, Node>> };

function resolved(node: Node): Node {
  return node.$ref === undefined ? node : schema.$defs[node.$ref.replace("#/$defs/", "")]!;
}

const filters = schema.$defs.EqBand!.oneOf!.map(resolved);

describe("what a configuration may hold can be computed", () => {
  it("every kind of filter, and no other", () => {
    const kinds = filters.flatMap(({ properties }) => properties!.kind!.enum ?? [properties!.kind!.const!]);
    expect([...kinds].sort()).toEqual([...FILTER_KIND_NAMES].sort());
  });

  it("every crossover family and graphic layout, and no other", () => {
    expect(schema.$defs.FilterFamily!.enum!.toSorted()).toEqual(CROSSOVER_FAMILY_NAMES.toSorted());
    expect(schema.$defs.GraphicLayout!.enum!.toSorted()).toEqual(GRAPHIC_LAYOUTS.toSorted());
  });

  it.each(["frequencyHz", "gainDb", "q", "slope"] as const)("every %s of a filter", (name) => {
    const ranges = filters.flatMap(({ properties }) => properties![name] ?? []).map(resolved);
    expect(ranges.length).toBeGreaterThan(0);
    for (const { minimum, exclusiveMinimum, maximum } of ranges) {
      // A Q may be any number above 0 there; below 1e-6 nothing is computed.
      if (exclusiveMinimum === undefined) expect(minimum).toBeGreaterThanOrEqual(COMPUTABLE[name].min);
      expect(maximum).toBeLessThanOrEqual(COMPUTABLE[name].max);
    }
  });
});
