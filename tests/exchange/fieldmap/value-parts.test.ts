import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadFieldMap, readExport, writeExport } from "../../../src/exchange/fieldmap/index.ts";
import { readTree } from "../../../src/exchange/fieldmap/sources/index.ts";
import type {
  ChoiceConversion,
  Configuration,
  Crossover,
  ExportSource,
  MapRule,
  ValueParts,
} from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { base, smallMap } from "./small-map.ts";

const parts: readonly ValueParts[] = [
  {
    at: "/out/*/filter",
    forms: ["{family:letters}{order:number} at {hz} Hz"],
    nothing: ["none"],
  },
];

const [first, second] = base.outputs.map(({ id }) => id) as [string, string];
const families: ChoiceConversion = {
  kind: "choice",
  choices: [
    { export: "LR", value: "linkwitz-riley" },
    { export: "BW", value: "butterworth" },
    { export: "BS", value: "bessel" },
  ],
};

const rules: readonly MapRule[] = [
  {
    kind: "list",
    list: "outputs",
    each: "$.out.*",
    rules: [
      { kind: "value", field: "id", segment: 0 },
      { kind: "value", field: "highPass.family", at: "/filter/family", as: families, optional: true },
      {
        ...{ kind: "value", field: "highPass.order", at: "/filter/order", optional: true },
        as: { kind: "order", unit: "dB/octave" },
      },
      { kind: "value", field: "highPass.frequencyHz", at: "/filter/hz", optional: true },
      {
        ...{ kind: "fixed", field: "highPass.normalization", value: "phase" },
        when: { field: "highPass.family", is: ["bessel"] },
      },
      { kind: "list", list: "filters", each: "$.no[*]", rules: [{ kind: "value", field: "id", at: "/x" }] },
    ],
  },
];

interface Case {
  readonly kind: string;
  readonly source: ExportSource;
  readonly text: (a: string, b: string) => string;
}

const CASES: readonly Case[] = [
  {
    kind: "JSON",
    source: { kind: "json", parts: [...parts] },
    text: (a, b) => `{"out": {"${first}": {"filter": "${a}"},\n "${second}": {"filter": "${b}", "lamp": 3}}}`,
  },
  {
    kind: "XML",
    source: { kind: "xml", parts: [{ ...parts[0]!, at: "/x/out/*/@filter" }] },
    text: (a, b) => `<x><out><${first} filter='${a}'/><${second} filter="${b}" lamp="3"/></out></x>`,
  },
  {
    kind: "keys and values",
    source: { kind: "key-value", separator: "=", sections: false, divider: "/", parts: [...parts] },
    text: (a, b) => `out/${first}/filter = ${a}\nout/${second}/filter = "${b}"\nlamp = 3`,
  },
  {
    kind: "lines",
    source: {
      kind: "lines",
      forms: [{ form: "FILTER {out} {filter:quoted}", at: "/out/{out}" }],
      parts: [...parts],
    },
    text: (a, b) => `FILTER ${first} "${a}"\r\nFILTER ${second} "${b}"`,
  },
];

const textOf = (crossover: Crossover | undefined): string => {
  if (crossover === undefined) return "none";
  const word = families.choices.find(({ value }) => value === crossover.family)!.export;
  return `${word}${crossover.order * 6} at ${crossover.frequencyHz} Hz`;
};

const crossover = fc.option(
  fc
    .record({
      family: fc.constantFrom("linkwitz-riley" as const, "butterworth" as const, "bessel" as const),
      order: fc.constantFrom(2, 4, 8),
      frequencyHz: fc.integer({ min: 20, max: 20000 }),
    })
    .map((one): Crossover => (one.family === "bessel" ? { ...one, normalization: "phase" } : one)),
  { nil: undefined },
);

function screen(a: Crossover | undefined, b: Crossover | undefined): Configuration {
  const outputs = base.outputs.slice(0, 2).map(({ highPass: _old, ...output }, i) => {
    const highPass = i === 0 ? a : b;
    return { ...output, filters: [], ...(highPass === undefined ? {} : { highPass }) };
  });
  return { ...base, outputs };
}

describe.each(CASES)("values in parts: $kind", ({ kind, source, text }) => {
  const map = smallMap(
    source,
    kind === "XML"
      ? JSON.parse(JSON.stringify(rules).replaceAll("$.out", "$.x.out").replaceAll("/filter", "/@filter"))
      : rules,
  );
  const loaded = loadFieldMap(map);

  it("read, go back to the same bytes, and hold whatever is wanted", () => {
    fc.assert(
      fc.property(crossover, crossover, crossover, (a, b, next) => {
        const bytes = Buffer.from(text(textOf(a), textOf(b)));
        const read = readExport(bytes, loaded, { base: screen(undefined, undefined) });
        expect(read.configuration.outputs).toEqual(screen(a, b).outputs);
        expect(Buffer.compare(Buffer.from(writeExport(read.configuration, bytes, loaded).bytes), bytes)).toBe(
          0,
        );
        const written = writeExport(screen(a, next), bytes, loaded);
        expect(Buffer.from(written.bytes).toString()).toBe(text(textOf(a), textOf(next)));
      }),
      { numRuns: runs(60) },
    );
  });
});

describe("values in parts", () => {
  it("that fit no form stay whole, and are told as such", () => {
    const source: ExportSource = { kind: "json", parts: [...parts] };
    const tree = readTree('{"out": {"a": {"filter": "whatever"}}}', source);
    expect([...tree.leaves.keys()]).toEqual(["/out/a/filter"]);
  });

  it("written with escapes are refused with the place", () => {
    const source: ExportSource = { kind: "json", parts: [{ at: "/x", forms: ["{a} to {b}"] }] };
    expect(() => readTree('{"x": "1\\u0020to 2"}', source)).toThrow(/escapes/);
  });

  it("do not take a new value that would read as something else", () => {
    const source: ExportSource = { kind: "json", parts: [{ at: "/x", forms: ["{a}-{b}"] }] };
    const tree = readTree('{"x": "left-right"}', source);
    expect(tree.write(tree.leaves.get("/x/a")!, "l-e")).toBeUndefined();
    expect(tree.write(tree.leaves.get("/x/a")!, "mid")).toBe("mid");
  });
});
