import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonicalText } from "../../../src/base/canonical/index.ts";
import { applyEdits, editsBetween, pieces } from "../../../src/logbook/medium/edits.ts";

/** Documents with keyed lists, as configurations have them, and with anything else JSON allows. */
const item = fc.record({
  id: fc.constantFrom("a", "b", "c", "d", "e"),
  gainDb: fc.integer(),
  label: fc.string(),
});
const document = fc.oneof(
  fc.record({
    outputs: fc.uniqueArray(item, { selector: (entry) => entry.id }),
    gainsDb: fc.array(fc.integer()),
  }),
  fc.jsonValue().map((value) => JSON.parse(JSON.stringify(value)) as unknown),
);

const cut = (value: unknown) => pieces(canonicalText(value));
const edited = (from: unknown, to: unknown) => editsBetween(cut(from), cut(to));

describe("pieces", () => {
  it("takes structure and scalars apart, names among the structure", () => {
    expect(pieces('{"a":1,"b:":["x,\\"]",true,null,{}],"c":-2.5e-7}')).toEqual([
      '{"a":',
      "1",
      ',"b:":[',
      '"x,\\"]"',
      ",",
      "true",
      ",",
      "null",
      ',{}],"c":',
      "-2.5e-7",
      "}",
    ]);
    expect(pieces('"only"')).toEqual(["", '"only"', ""]);
    expect(pieces("{}")).toEqual(["{}"]);
    expect(pieces('{"a":1,"b":{"c":[]}}')).toEqual(['{"a":', "1", ',"b":{"c":[]}}']);
    expect(pieces('{"a":{}}')).toEqual(['{"a":{}}']);
  });

  it("loses nothing", () => {
    fc.assert(
      fc.property(document, (value) => {
        const text = canonicalText(value);
        expect(pieces(text).join("")).toBe(text);
        expect(pieces(text).length % 2).toBe(1);
      }),
    );
  });
});

describe("pieces of very long texts", () => {
  it.each([
    ["a long string", { a: "x".repeat(5_000_000) }],
    ["a long string of escapes", { a: '"\\'.repeat(1_000_000) }],
    ["a long name", { ["n".repeat(1_000_000)]: 1 }],
    ["much structure", Array.from({ length: 200_000 }, () => [])],
  ])("%s", (_what, value) => {
    expect(pieces(canonicalText(value)).join("")).toBe(canonicalText(value));
  });
});

describe("editsBetween and applyEdits", () => {
  it("give the second document from the first, whatever they are", () => {
    fc.assert(
      fc.property(document, document, (from, to) => {
        expect(applyEdits(cut(from), edited(from, to))).toEqual(cut(to));
      }),
      { numRuns: 500 },
    );
  });

  it("are empty between equal documents", () => {
    expect(edited({ b: 1, a: [2] }, { a: [2], b: 1 })).toEqual({ keep: [], drop: [], add: [] });
  });

  it("name a changed scalar by how many pieces lie before it", () => {
    expect(edited({ a: 1, b: [2, 3] }, { a: 1, b: [2, 4] })).toEqual({ keep: [5], drop: [1], add: ["4"] });
  });

  it("cost one edit for an item added in the middle of a keyed list, whatever follows", () => {
    const outputs = Array.from({ length: 40 }, (_, index) => ({
      id: `o${index}`,
      gainDb: index,
      delayMs: 2 * index,
    }));
    const more = [...outputs.slice(0, 7), { id: "new", gainDb: -1, delayMs: 5 }, ...outputs.slice(7)];
    const { add } = edited({ outputs }, { outputs: more });
    expect(add).toHaveLength(1);
    expect(add.join("")).toContain('"new"');
    expect(edited({ outputs: more }, { outputs }).add).toEqual([""]);
  });

  it("keep the pieces cut when a scalar gives way to structure, or structure to a scalar", () => {
    const edits = { keep: [1], drop: [1], add: ['"x",{"b":2}'] };
    expect(applyEdits(pieces("[1]"), edits)).toEqual(pieces('["x",{"b":2}]'));
    const back = { keep: [0], drop: [3], add: ["7"] };
    expect(applyEdits(pieces("[1]"), back)).toEqual(pieces("7"));
  });

  it("do not fit another base", () => {
    expect(applyEdits(pieces("{}"), { keep: [3], drop: [1], add: ["4"] })).toBeUndefined();
    expect(applyEdits(pieces('{"a":1}'), { keep: [1], drop: [], add: ["4"] })).toBeUndefined();
  });
});
