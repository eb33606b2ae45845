import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { naturalOrder } from "../../../src/base/text/index.ts";

describe("the natural order of names", () => {
  it("counts as a person does", () => {
    const names = [
      "screen-10",
      "screen-2",
      "Screen 1",
      "screen-1",
      "screen-02",
      "hall",
      "screen-2b",
      "screen-",
      "2",
      "10",
    ];
    expect(names.toSorted(naturalOrder)).toEqual([
      "2",
      "10",
      "Screen 1",
      "hall",
      "screen-",
      "screen-1",
      "screen-02",
      "screen-2",
      "screen-2b",
      "screen-10",
    ]);
    expect(["hall-2/screen-1", "hall/screen-10", "hall/screen-9"].toSorted(naturalOrder)).toEqual([
      "hall/screen-9",
      "hall/screen-10",
      "hall-2/screen-1",
    ]);
  });

  it("is an order: of two different names one is first, and first of the first is first", () => {
    const name = fc.string({ unit: fc.constantFrom("a", "b", "0", "1", "2", "-", "/"), maxLength: 5 });
    fc.assert(
      fc.property(name, name, name, (a, b, c) => {
        expect(naturalOrder(a, b) === 0).toBe(a === b);
        expect(Math.sign(naturalOrder(a, b)) + Math.sign(naturalOrder(b, a))).toBe(0);
        if (naturalOrder(a, b) <= 0 && naturalOrder(b, c) <= 0)
          expect(naturalOrder(a, c)).toBeLessThanOrEqual(0);
      }),
    );
  });

  // ICU (Unicode Technical Standard 10 with numeric collation) as the reference, on names of one alphabet and case.
  it("agrees with numeric collation", () => {
    const { compare } = new Intl.Collator("en", { numeric: true });
    const screen = fc
      .tuple(fc.constantFrom("hall", "screen"), fc.nat(200))
      .map(([word, number]) => `${word} ${number}`);
    fc.assert(
      fc.property(screen, screen, (a, b) => {
        expect(Math.sign(naturalOrder(a, b))).toBe(Math.sign(compare(a, b)));
      }),
    );
  });
});
