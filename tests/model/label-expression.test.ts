import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDocument, readProfile, type UnitProfile } from "../../src/model/index.ts";
import { labelFits, labelLimits } from "../../src/profile/index.ts";

const old = readFileSync(join(import.meta.dirname, "../../samples/old/unit-profile-1.0.json"), "utf8");

function profileWith(characters: unknown, more: object = {}): string {
  const profile = JSON.parse(old) as { labels: object };
  return JSON.stringify({ ...profile, labels: { ...profile.labels, maxLength: 64, characters, ...more } });
}

function labelsOf(expression: string): UnitProfile["labels"] {
  return readProfile(profileWith(expression)).document.labels;
}

describe("the expression for names of profile 1.0", () => {
  it.each([
    ["^[ -~]*$", { characters: [" -~"], maxLength: 64 }],
    ["^[A-Z0-9 ./+-]*$", { characters: ["A-Z", "0-9", " ", ".", "/", "+", "-"], maxLength: 64 }],
    ["^[A-Z]{1,16}$", { characters: ["A-Z"], minLength: 1, maxLength: 16 }],
    [
      "^[\\w.\\-\\u{e9}\\xe8\\u00ea]+$",
      { characters: ["A-Z", "a-z", "0-9", "_", ".", "-", "é", "è", "ê"], minLength: 1, maxLength: 64 },
    ],
    ["^\\d{4}$", { characters: ["0-9"], minLength: 4, maxLength: 4 }],
    ["^[a-z][a-z]*$", { characters: ["a-z"], minLength: 1, maxLength: 64 }],
  ])("%s becomes a set and lengths", (expression, labels) => {
    expect(labelsOf(expression)).toEqual(labels);
  });

  it.each([
    ["^(([ -~])+)+x$", "'('"],
    ["^[A-Z][a-z]*$", "other characters at one place"],
    ["^(?:[A-Z]|[0-9])*$", "'('"],
    ["[ -~]*", "does not begin with '^'"],
    ["^[ -~]*", "does not end with '$'"],
    ["^\\p{L}*$", "ranges cannot name"],
    ["^[ -~", "breaks off"],
    ["^[z-a]*$", "backwards"],
    ["^[\\n]*$", "line ends"],
    ["^a{99999}$", "no count"],
    ["^a{2,1}$", "no count"],
    ["^[ -~]{65,}$", "asks for 65 characters"],
    ["^\\u{110000}$", "no character"],
    ["^$", "no character at all"],
  ])("%s is refused in words: %s", (expression, words) => {
    expect(() => readProfile(profileWith(expression), { file: "profile.json" })).toThrow(
      expect.objectContaining({
        code: "document.not-upgradable",
        message: expect.stringContaining(words) as string,
        place: { file: "profile.json", pointer: "/labels/characters" },
      }),
    );
  });

  it("is never run: an expression that goes back and forth for ever is refused at once", () => {
    const started = performance.now();
    expect(() => readProfile(profileWith("^(([ -~])+)+x$"))).toThrow(/cannot be read as a set/);
    expect(() => readProfile(profileWith(`^${"[ -~]*".repeat(33)}$`))).not.toThrow();
    expect(performance.now() - started).toBeLessThan(1000);
  });

  it("takes the same names as the expression did", () => {
    const literal = fc.constantFrom(..."azAZ09 _~é😀");
    const member = fc.oneof(
      literal,
      fc.constantFrom(
        "\\d",
        "\\w",
        "\\-",
        "\\]",
        "\\x41",
        "\\u00e9",
        "\\u{1f600}",
        "a-z",
        "0-9",
        " -~",
        "\\t-\\v",
      ),
    );
    const atom = fc.oneof(
      literal,
      fc.constantFrom("\\d", "\\w", ".", "\\."),
      fc
        .tuple(fc.constantFrom("", "^"), fc.array(member, { minLength: 1, maxLength: 5 }))
        .map(([negated, members]) => `[${negated}${members.join("")}]`),
    );
    const times = fc.constantFrom("", "*", "+", "?", "{2}", "{0,3}", "{2,}", "*?");
    const expression = fc
      .tuple(atom, times, times)
      .chain(([one, first, second]) =>
        fc.constantFrom(`^${one}${first}$`, `^${one}${first}${one}${second}$`),
      );
    const text = fc.string({
      unit: fc.constantFrom(..."abzAZ059 _~-].é😀\t\n\u2028"),
      maxLength: 6,
    });
    let compared = 0;
    fc.assert(
      fc.property(expression, fc.array(text, { minLength: 5, maxLength: 20 }), (source, texts) => {
        let labels: UnitProfile["labels"];
        try {
          labels = labelsOf(source);
        } catch (error) {
          expect(error).toMatchObject({ code: "document.not-upgradable" });
          return;
        }
        const limits = labelLimits(labels);
        const reference = new RegExp(source, "u");
        for (const label of texts)
          expect([label, labelFits(label, limits)]).toEqual([label, reference.test(label)]);
        compared += 1;
      }),
      { numRuns: 500 },
    );
    expect(compared).toBeGreaterThan(300);
  });
});

describe("a set of characters that cannot be", () => {
  const present = (labels: object) => {
    const profile = { ...(JSON.parse(profileWith([" -~"], labels)) as object), schemaVersion: "2.0.0" };
    return () => readDocument(JSON.stringify(profile));
  };

  it.each([
    [{ characters: ["z-a"] }, /characters\/0.*runs backwards/],
    [{ characters: [""] }, /characters\/0/],
    [{ characters: ["abc"] }, /characters\/0/],
    [{ characters: [] }, /characters/],
    [{ characters: "^[ -~]*$" }, /characters/],
    [{ minLength: 9, maxLength: 8 }, /minLength.*longer than the longest/],
  ])("%j is named with its place", (labels, words) => {
    expect(present(labels)).toThrow(words);
  });
});
