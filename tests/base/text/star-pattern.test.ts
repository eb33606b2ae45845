import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitsStars, fitsStarsByPart } from "../../../src/base/text/index.ts";

/** The same in ECMA-262's own matcher, which goes back and forth: only for short patterns. */
function reference(pattern: string, any: string): RegExp {
  const parts = pattern.split("*").map((part) => part.replace(/[\\^$.+?()[\]{}|/]/g, "\\$&"));
  return new RegExp(`^${parts.join(any)}$`, "su");
}

const short = (characters: string) => fc.string({ unit: fc.constantFrom(...characters), maxLength: 7 });

describe("patterns with stars", () => {
  it.each([
    ["hall-*", "hall-4", true],
    ["hall-*", "hall-", true],
    ["*-4", "hall-4", true],
    ["a*a", "a", false],
    ["a*a", "aa", true],
    ["ab*b*bc", "abbc", false],
    ["ab*b*bc", "abbbc", true],
    ["*", "", true],
    ["", "", true],
    ["", "x", false],
    ["a.c", "abc", false],
  ])("%s and %s: %s", (pattern, text, fits) => {
    expect(fitsStars(pattern, text)).toBe(fits);
  });

  it("fit as a regular expression says", () => {
    fc.assert(
      fc.property(short("ab*."), short("ab."), (pattern, text) => {
        expect(fitsStars(pattern, text)).toBe(reference(pattern, ".*").test(text));
      }),
      { numRuns: 3000 },
    );
  });

  it("by parts: a star does not reach over a slash", () => {
    fc.assert(
      fc.property(short("ab*/"), short("ab/"), (pattern, text) => {
        expect(fitsStarsByPart(pattern, text)).toBe(reference(pattern, "[^/]*").test(text));
      }),
      { numRuns: 3000 },
    );
  });

  it("thousands of stars on a long text take no time", () => {
    const text = "a".repeat(100_000);
    const started = performance.now();
    expect(fitsStars(`${"*a".repeat(5000)}*b`, text)).toBe(false);
    expect(fitsStars(`${"*a".repeat(5000)}*`, text)).toBe(true);
    expect(fitsStars(`*${"a".repeat(500)}b*`, text)).toBe(false);
    expect(performance.now() - started).toBeLessThan(500);
  });
});
