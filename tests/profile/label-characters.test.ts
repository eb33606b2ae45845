import { describe, expect, it } from "vitest";
import { labelCharactersInWords, labelFits, labelLimits } from "../../src/profile/index.ts";

describe("the characters of names", () => {
  it.each([
    [[" -~"], "letters without accents, digits and usual signs"],
    [["A-Z", "0-9", " ", ".", "/", "+", "-"], "capital letters, digits, space and + - . /"],
    [["A-Z", "a-z", "0-9"], "letters without accents and digits"],
    [["a-z"], "small letters"],
    [["A-F", "0-9", "_"], "digits and A B C D E F _"],
  ])("%j in words: %s", (characters, words) => {
    expect(labelCharactersInWords(labelLimits({ maxLength: 64, characters }))).toBe(words);
  });

  it("'-' is a character by itself, and may begin or end a range", () => {
    const fits = (characters: readonly string[], text: string) =>
      labelFits(text, labelLimits({ maxLength: 8, characters }));
    expect(fits(["-"], "--")).toBe(true);
    expect(fits(["-"], "a")).toBe(false);
    expect(fits(["+--"], "+,-")).toBe(true);
    expect(fits(["--/"], "-./")).toBe(true);
    expect(fits(["--/"], ",")).toBe(false);
  });

  it("lengths count characters, not code units", () => {
    const limits = labelLimits({ minLength: 2, maxLength: 3, characters: ["😀-😎"] });
    expect(["😀", "😀😁", "😀😁😂", "😀😁😂😃"].map((text) => labelFits(text, limits))).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });
});
