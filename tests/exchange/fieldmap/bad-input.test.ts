import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  loadFieldMap,
  readExport,
  startFieldMap,
  writeExport,
} from "../../../src/exchange/fieldmap/index.ts";
import { readTree } from "../../../src/exchange/fieldmap/sources/index.ts";
import { type ExportSource, type MapRule, readDocument } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { SAMPLE_EXPORTS } from "./sample-maps.ts";
import { base, smallMap } from "./small-map.ts";

const RUNS = runs(6);

/** Pieces that break formats, hide in them, or swell. */
const HOSTILE = [
  '<!DOCTYPE r [<!ENTITY a "b">]>',
  "&a;",
  "<![CDATA[",
  "]]>",
  "\u0000",
  "\ufeff",
  "\ud800",
  "\u202e",
  '"',
  "'",
  ";",
  ",",
  "\r",
  "\n\n",
  "{",
  "]",
  "__proto__",
  "constructor",
  "1e999",
  "-0",
  "NaN",
  "\\u0000",
  "[a]",
  "=",
  "<a>".repeat(70),
  "[".repeat(5000),
  "a.".repeat(500),
];

const mutation = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 0, max: 400 }),
  what: fc.oneof(
    fc.constantFrom("drop", "double", "turn"),
    fc.constantFrom(...HOSTILE),
    fc.string({ maxLength: 5 }),
  ),
});

type Mutation = typeof mutation extends fc.Arbitrary<infer M> ? M : never;

function mutated(bytes: Buffer, mutations: readonly Mutation[], encoding: BufferEncoding): Buffer {
  let text = bytes.toString(encoding);
  for (const { at, length, what } of mutations) {
    const start = Math.floor(at * text.length);
    const piece = text.slice(start, start + length);
    const instead =
      what === "drop"
        ? ""
        : what === "double"
          ? piece + piece
          : what === "turn"
            ? [...piece].reverse().join("")
            : what;
    text = text.slice(0, start) + instead + text.slice(start + piece.length);
  }
  return Buffer.from(text, encoding);
}

const ENCODINGS: Readonly<Record<string, BufferEncoding>> = {
  "copper-heron-2.csv": "latin1",
  "copper-heron-2.json": "utf16le",
};

describe.each(SAMPLE_EXPORTS)("$name, changed at random", ({ name, bytes, loaded }) => {
  const encoding = ENCODINGS[name] ?? "utf8";

  it("reads as a whole or not at all, in words, and balances", () => {
    fc.assert(
      fc.property(fc.array(mutation, { minLength: 1, maxLength: 3 }), (mutations) => {
        const broken = mutated(bytes, mutations, encoding);
        const read = attempt(() => readExport(broken, loaded));
        if (read === undefined) return;
        const { counts, unknown, ignored, fields } = read.account;
        expect(counts.used + counts.ignored + counts.unknown).toBe(counts.values);
        expect([unknown.length, ignored.reduce((sum, { values }) => sum + values, 0)]).toEqual([
          counts.unknown,
          counts.ignored,
        ]);
        expect(new Set(fields.map(({ pointer }) => pointer)).size).toBe(fields.length);
        readDocument(JSON.stringify(read.configuration), { expect: "boothkeep.configuration" });
        const same = writeExport(read.configuration, broken, loaded);
        expect(Buffer.from(same.bytes).equals(broken)).toBe(true);
      }),
      { numRuns: RUNS, endOnFailure: true },
    );
  });

  it("gives a map that loads, or none", () => {
    fc.assert(
      fc.property(fc.array(mutation, { minLength: 1, maxLength: 3 }), (mutations) => {
        const started = attempt(() => startFieldMap(mutated(bytes, mutations, encoding), { id: "begun" }));
        if (started !== undefined) loadFieldMap(started.map);
      }),
      { numRuns: Math.ceil(RUNS / 5), endOnFailure: true },
    );
  });
});

/** The result, or nothing where it was refused in words; anything else is a fault. */
function attempt<T>(run: () => T): T | undefined {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    expect(error.message.length).toBeLessThan(2000);
    expect(error.next.length).toBeGreaterThan(10);
    return undefined;
  }
}

const codeOf = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    return (error as BoothkeepError).code;
  }
  return "none";
};

describe("names that mean something to the language", () => {
  const names = ["__proto__", "constructor", "toString", "hasOwnProperty"];
  const texts: readonly (readonly [ExportSource, (name: string) => string, (name: string) => string])[] = [
    [{ kind: "json" }, (name) => `{"${name}":{"x":"1"}}`, (name) => `/${name}/x`],
    [{ kind: "xml" }, (name) => `<${name} ${name}="0"><x>1</x></${name}>`, (name) => `/${name}/x`],
    [{ kind: "table", delimiter: ",", header: "first-row" }, (name) => `${name},x\n2,1\n`, () => "/0/x"],
    [
      { kind: "table", delimiter: ",", header: "by-mark", mark: "#" },
      (name) => `#${name},x\n${name},1\n`,
      (name) => `/${name}/0/x`,
    ],
    [
      { kind: "key-value", separator: "=", sections: true, divider: "." },
      (name) => `[${name}]\nx=1\n`,
      (name) => `/${name}/x`,
    ],
    [
      { kind: "lines", forms: [{ form: "set {n} {x}", at: "/{n}" }] },
      (name) => `set ${name} 1\n`,
      (name) => `/${name}/x`,
    ],
  ];

  it.each(texts)("are just names: %j", (source, text, pointer) => {
    for (const name of names) {
      const tree = readTree(text(name), source);
      expect(tree.leaves.get(pointer(name))?.raw).toBe("1");
      expect(Object.getPrototypeOf(tree.root) === null || Array.isArray(tree.root)).toBe(true);
    }
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });

  it("never become fields", () => {
    for (const field of ["__proto__.x", "constructor", "unit.__proto__", "prototype.x"]) {
      const rules: readonly MapRule[] = [{ kind: "value", field, at: "/x" }];
      expect(codeOf(() => loadFieldMap(smallMap({ kind: "json" }, rules)))).toBe("field-map.unusable");
    }
  });
});

describe("exports without measure", () => {
  it.each<readonly [string, ExportSource, string, string]>([
    ["many values", { kind: "json" }, `[${"1,".repeat(500_000)}1]`, "input.too-large"],
    [
      "many lines",
      { kind: "lines", forms: [{ form: "a {x}", at: "/-" }] },
      "b\n".repeat(500_000),
      "input.too-large",
    ],
    [
      "many cells",
      { kind: "table", delimiter: ",", header: "none" },
      `${"1,1\n".repeat(250_000)}`,
      "input.too-large",
    ],
    [
      "deep keys",
      { kind: "key-value", separator: "=", sections: false, divider: "." },
      `${"a.".repeat(100)}b=1`,
      "export.not-readable",
    ],
    ["deep elements", { kind: "xml" }, "<a>".repeat(100), "export.not-readable"],
    ["deep lists", { kind: "json" }, "[".repeat(100_000), "input.too-deep"],
  ])("are refused: %s", (_name, source, text, code) => {
    expect(codeOf(() => readTree(text, source))).toBe(code);
  });
});

describe("maps without end", () => {
  const list = (each: string): MapRule => ({
    kind: "list",
    list: "outputs",
    each,
    rules: [{ kind: "value", field: "id", at: "/id" }],
  });

  it.each([
    "$..*..*",
    "$[?count($..*) > 1]",
    "$[?@..a == 1]",
    "$..[?@[?@[?@.a]]]",
    "$.out[?match(@.id, '(a+)+b')]",
    "$.out[?search(@.id, '(a|a)*b')]",
    `$${`[${"*,".repeat(19)}*]`.repeat(4)}`,
    "$[*,'a'][*,'a']",
    "$['a','a']",
    "$[0,-1][0,-1]",
    "$[0:,0:]",
    "$[?@.a,?@.b]",
    "$[?@[*,*]]",
    "$[?count(@[*,*]) > 1]",
    "$[?!(@.a && @[*,*])]",
  ])("are refused when they are loaded: %s", (each) => {
    expect(codeOf(() => loadFieldMap(smallMap({ kind: "json" }, [list(each)])))).toBe("field-map.unusable");
  });

  it.each([
    "$..out",
    "$.out[?@.used == true]",
    "$.out[?@.note == 'a..b?$']",
    "$['a..b']['?'].x[*]",
    "$.out[?@.id != '']",
    "$.out['left','right'].way[0,1,2]",
    "$.out[?(@.id == 'a' || !@.off) && count(@.way[*]) > 1]",
  ])("are not those that end: %s", (each) =>
    expect(codeOf(() => loadFieldMap(smallMap({ kind: "json" }, [list(each)])))).toBe("none"),
  );

  it("that look everywhere from every place are stopped by a count, before they look", () => {
    const inner = (depth: number): MapRule[] =>
      depth === 0
        ? [{ kind: "value", field: "id", segment: 0 }]
        : [
            { kind: "value", field: "id", segment: 0 },
            {
              kind: "list",
              list: "filters",
              each: "$..*",
              rules: [{ kind: "value", field: "id", segment: 0 }],
            },
          ];
    const rules: MapRule[] = [{ kind: "list", list: "outputs", each: "$..*", rules: inner(1) }];
    const values = Array.from({ length: 40 }, () => `[${Array(2000).fill("1").join()}]`);
    const bytes = Buffer.from(`${'{"a":'.repeat(50)}[${values.join()}]${"}".repeat(50)}`);
    const started = performance.now();
    expect(codeOf(() => readExport(bytes, loadFieldMap(smallMap({ kind: "json" }, rules)), { base }))).toBe(
      "field-map.unusable",
    );
    expect(performance.now() - started).toBeLessThan(20_000);
  });

  it("that leave everything out a hundred times over go along the export once", () => {
    const ignore = Array.from({ length: 400 }, (_none, i) => ({ each: `$.x${i}`, reason: "none" }));
    const loaded = loadFieldMap({
      ...smallMap({ kind: "json" }, [{ kind: "value", field: "unit.label", at: "/name" }]),
      ignore,
    });
    const bytes = Buffer.from(`{"name":"A","list":[${Array(100_000).fill("1").join()}],"x399":[1,2]}`);
    const started = performance.now();
    const { account } = readExport(bytes, loaded, { base });
    expect(account.counts).toEqual({ values: 100_003, used: 1, ignored: 2, unknown: 100_000 });
    expect(account.ignored.at(-1)!.values).toBe(2);
    expect(performance.now() - started).toBeLessThan(10_000);
  });

  it("forms of lines go along a line once, whatever they are", () => {
    const form = Array.from({ length: 26 }, (_none, i) => `{${String.fromCharCode(97 + i)}}`).join("-");
    const source: ExportSource = {
      kind: "lines",
      forms: [
        { form, at: "/a" },
        { form: `x${form}`, at: "/b" },
      ],
    };
    expect([...readTree(`${"-".repeat(500_000)} end\n`, source).leaves.keys()]).toEqual([
      "/unknown-lines/0/line",
    ]);
  });
});

describe("encodings", () => {
  const map = (source: ExportSource) =>
    loadFieldMap(smallMap(source, [{ kind: "value", field: "unit.label", at: "/name" }]));
  const text = '{"name":"Größe"}';
  const label = (bytes: Uint8Array, source: ExportSource) =>
    readExport(bytes, map(source), { base }).configuration.unit.label;

  it("are those of the mark, or those that the map declares", () => {
    const utf16be = Buffer.from(text, "utf16le").swap16();
    expect(label(Buffer.from(text), { kind: "json" })).toBe("Größe");
    expect(label(Buffer.from(`\ufeff${text}`), { kind: "json", encoding: "latin-1" })).toBe("Größe");
    expect(label(Buffer.from(text, "latin1"), { kind: "json", encoding: "latin-1" })).toBe("Größe");
    expect(label(Buffer.from(text, "utf16le"), { kind: "json", encoding: "utf-16le" })).toBe("Größe");
    expect(label(utf16be, { kind: "json", encoding: "utf-16be" })).toBe("Größe");
    expect(label(Buffer.concat([Buffer.from([0xfe, 0xff]), utf16be]), { kind: "json" })).toBe("Größe");
  });

  it("that are wrong are told, never guessed", () => {
    expect(codeOf(() => label(Buffer.from(text, "latin1"), { kind: "json" }))).toBe("export.wrong-encoding");
    expect(
      codeOf(() => label(Buffer.from(text).subarray(1), { kind: "json", encoding: "utf-16le" })),
    ).not.toBe("none");
  });

  it("that lack a letter of the configuration are told, and nothing is written", () => {
    const source: ExportSource = { kind: "json", encoding: "latin-1" };
    const bytes = Buffer.from(text, "latin1");
    const { configuration } = readExport(bytes, map(source), { base });
    const other = { ...configuration, unit: { ...configuration.unit, label: "Zażółć" } };
    expect(codeOf(() => writeExport(other, bytes, map(source)))).toBe("export.wrong-encoding");
  });
});
