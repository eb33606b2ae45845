import { describe, expect, it } from "vitest";
import { labelCharactersInWords } from "../../src/profile/index.ts";

describe("the characters of names", () => {
  it.each([
    ["^[ -~]*$", "letters without accents, digits and usual signs"],
    ["^[A-Z0-9 ./+-]*$", "capital letters, digits, space and + - . /"],
    ["^[A-Za-z0-9]*$", "letters without accents and digits"],
    ["^[a-z]*$", "small letters"],
    ["^[A-F0-9_]*$", "digits and A B C D E F _"],
  ])("%s is told as: %s", (pattern, words) => {
    expect(labelCharactersInWords(new RegExp(pattern, "u"))).toBe(words);
  });
});
