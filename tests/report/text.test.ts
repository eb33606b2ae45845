import { stripVTControlCharacters } from "node:util";
import fc from "fast-check";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { type Block, renderText, type Table } from "../../src/report/index.ts";
import { runs } from "../runs.ts";

const words = fc
  .array(fc.oneof(fc.string({ unit: "grapheme", maxLength: 30 }), fc.constant("−12.5 dB")), { maxLength: 8 })
  .map((parts) => parts.join(" "));
const table: fc.Arbitrary<Table> = fc.integer({ min: 1, max: 14 }).chain((columns) =>
  fc.record({
    kind: fc.constant("table" as const),
    caption: words,
    boxes: fc.boolean(),
    columns: fc.array(fc.record({ header: words }), { minLength: columns, maxLength: columns }),
    rows: fc.array(fc.array(words, { minLength: columns, maxLength: columns }), { maxLength: 4 }),
  }),
);
const block: fc.Arbitrary<Block> = fc.oneof(
  table,
  fc.record({ kind: fc.constant("paragraph" as const), text: words }),
  fc.record({
    kind: fc.constant("facts" as const),
    pairs: fc.array(fc.tuple(words, words), { maxLength: 4 }),
  }),
  fc.record({
    kind: fc.constant("list" as const),
    marker: fc.constantFrom("dot", "number", "box" as const),
    items: fc.array(fc.record({ text: words, lead: words, tags: fc.array(words, { maxLength: 2 }) }), {
      maxLength: 3,
    }),
  }) as fc.Arbitrary<Block>,
  fc.record({
    kind: fc.constant("caution" as const),
    title: words,
    items: fc.array(words, { maxLength: 3 }),
  }),
);

describe("renderText", () => {
  it("is never wider than the page, whatever it holds", () => {
    fc.assert(
      fc.property(
        fc.array(block, { maxLength: 4 }),
        fc.integer({ min: 24, max: 120 }),
        words,
        (blocks, columns, title) => {
          const lines = renderText({ title, blocks }, { columns }).split("\n");
          for (const line of lines) expect(stringWidth(line)).toBeLessThanOrEqual(columns);
        },
      ),
      { numRuns: runs(60) },
    );
  });

  it("keeps a number and its unit on one line", () => {
    const text = renderText({
      title: "x",
      blocks: [{ kind: "paragraph", text: `${"a".repeat(70)} bb −12.5 dB at 1.6 kHz` }],
    });
    expect(text).toContain("−12.5 dB");
    expect(text).toContain("1.6 kHz");
  });

  it("uses terminal styles only when asked to, and says the same without", () => {
    const report = {
      title: "Title",
      blocks: [
        {
          kind: "list",
          marker: "dot",
          items: [{ lead: "Place", tags: ["protection"], severity: "error", text: "Words." }],
        },
        { kind: "caution", title: "Caution", items: ["Fader down."] },
      ],
    } as const;
    const plain = renderText(report);
    const styled = renderText(report, { color: true });
    expect(styled).toContain("\u001b[");
    // ECMA-48 control sequences taken away again.
    expect(stripVTControlCharacters(styled)).toBe(plain);
  });

  it("stands a wide table as records", () => {
    const columns = Array.from({ length: 12 }, (_, index) => ({ header: `Column ${index}` }));
    const rows = [columns.map((_, index) => `value number ${index}`)];
    expect(renderText({ title: "x", blocks: [{ kind: "table", caption: "Wide", columns, rows }] })).toContain(
      "  Column 11: value number 11",
    );
  });
});
