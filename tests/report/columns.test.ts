import fc from "fast-check";
import stringWidth from "string-width";
import { describe, expect, it } from "vitest";
import { pad, widthOf, wrapLines } from "../../src/report/render/columns.ts";
import { runs } from "../runs.ts";

describe("widthOf", () => {
  // East_Asian_Width of UAX #11 (Unicode Standard Annex 11, EastAsianWidth.txt) and clusters of UAX #29.
  it.each([
    ["plain", "Screen left, −12.5 dB", 21],
    ["wide, W", "映画館", 6],
    ["full width, F", "ＡＢ", 4],
    ["half width, H", "ｱｲ", 2],
    ["half width with a voicing mark of its own", "ｶﾞ", 2],
    ["combining", "e\u0301", 1],
    ["only combining", "\u0301", 0],
    ["a syllable of conjoining jamo", "\u1112\u1161\u11ab", 2],
    ["a syllable", "한", 2],
    ["a pictograph", "🔊", 2],
    ["several joined into one", "👩\u200d🔧", 2],
    ["a sign with the selector for color", "⚠\ufe0f", 2],
    ["the same without", "⚠", 1],
    ["a keycap", "1\ufe0f\u20e3", 2],
    ["no-break space", "1\u00a0kHz", 5],
    ["soft hyphen and zero-width space", "a\u00ad\u200bb", 2],
  ])("%s", (_name, text, columns) => {
    expect(widthOf(text)).toBe(columns);
    expect(stringWidth(text)).toBe(columns);
  });

  it("agrees with a library on whatever people write", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 20 }), (text) => {
        expect(widthOf(text)).toBe(stringWidth(text));
      }),
      { numRuns: runs(2000) },
    );
  });
});

describe("wrapLines and pad", () => {
  it("count wide characters as two columns", () => {
    expect(wrapLines("映画館の音", 4)).toEqual(["映画", "館の", "音"]);
    expect(pad("映画", 6)).toBe("映画  ");
  });
});
