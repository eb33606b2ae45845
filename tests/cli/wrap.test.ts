import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrap } from "../../cli/wrap.ts";

describe("wrap", () => {
  it("breaks at spaces and indents what follows", () => {
    expect(wrap("one two three four", 9)).toBe("one two\n  three\n  four");
    expect(wrap("one two three four", 9, "")).toBe("one two\nthree\nfour");
  });

  it("cuts a word that is wider than a line", () => {
    expect(wrap("a 0123456789abc", 8)).toBe("a\n  012345\n  6789ab\n  c");
  });

  it("keeps every character and never passes the width", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 300 }), fc.integer({ min: 10, max: 80 }), (text, columns) => {
        const lines = wrap(text, columns).split("\n");
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
        expect(lines.join("").replace(/\s/g, "")).toBe(text.replace(/\s/g, ""));
      }),
    );
  });
});
