import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BoothkeepError } from "../../src/base/errors/index.ts";
import { MAX_DOCUMENT_BYTES, readJson, valuePositions } from "../../src/model/index.ts";

function refusal(content: string | Uint8Array): BoothkeepError {
  try {
    readJson(content, { file: "left.json" });
  } catch (error) {
    if (error instanceof BoothkeepError) return error;
    throw error;
  }
  throw new Error("was read");
}

describe("strict JSON", () => {
  it("reads what JSON.parse reads, with or without byte order mark", () => {
    const text = '{"a": [1, -0.5e3, true, null, "\\u00e9\\ud83d\\ude00"], "b": {"a": {}}}';
    const bytes = new TextEncoder().encode(text);
    expect(readJson(text)).toEqual(JSON.parse(text));
    expect(readJson(bytes)).toEqual(JSON.parse(text));
    expect(readJson(new Uint8Array([0xef, 0xbb, 0xbf, ...bytes]))).toEqual(JSON.parse(text));
    expect(readJson(`\ufeff${text}`)).toEqual(JSON.parse(text));
  });

  it.each([
    ['{\n  "a": 1,\n  "b": NaN\n}', "input.not-json", 3, 8, "'NaN' is no JSON number"],
    ['{"a": 1,}', "input.not-json", 1, 9, "a name in double quotes"],
    ['{"a" 1}', "input.not-json", 1, 6, "a colon was expected"],
    ["[1 2]", "input.not-json", 1, 4, "a comma or ]"],
    ['{"a": 1} x', "input.not-json", 1, 10, "after the end"],
    ['["a\nb"]', "input.not-json", 1, 4, "not closed"],
    ['["a\\x"]', "input.not-json", 1, 4, "wrong escape"],
    ['{"a": [1', "input.not-json", 1, 9, "ends too early"],
    ["[01]", "input.not-json", 1, 3, "a comma or ]"],
    ["[-Infinity]", "input.not-json", 1, 2, "no JSON number"],
    ["", "input.not-json", 1, 1, "empty"],
    ['{"a": {"b": 1, "c": 2,\n "b": 3}}', "input.duplicate-name", 2, 2, '"b" stands twice'],
    ['{"a": 1, "\\u0061": 2}', "input.duplicate-name", 1, 10, '"a" stands twice'],
    ['{"__proto__": 1, "__proto__": 2}', "input.duplicate-name", 1, 18, "__proto__"],
    ['{"gainDb": 1e999}', "input.number-range", 1, 12, "1e999"],
    ['["\\ud800"]', "input.not-json", 1, 2, "surrogate"],
  ])("refuses %j with its place", (text, code, line, column, words) => {
    const error = refusal(text);
    expect(error.code).toBe(code);
    expect(error.place).toMatchObject({ file: "left.json", line, column });
    expect(error.message).toContain(words);
  });

  it("refuses other encodings, zip files and what is too large or too deep", () => {
    expect(refusal(new Uint8Array([0xff, 0xfe, 0x7b, 0])).message).toContain("UTF-16");
    expect(refusal(new Uint8Array([0x22, 0xc3, 0x28, 0x22])).code).toBe("input.not-utf8");
    expect(refusal(new Uint8Array([0x50, 0x4b, 3, 4, 0xff])).message).toContain("zip");
    expect(refusal(new Uint8Array(MAX_DOCUMENT_BYTES + 1)).code).toBe("input.too-large");
    expect(refusal("[".repeat(65) + "]".repeat(65)).code).toBe("input.too-deep");
    expect(refusal("[".repeat(5_000_000)).code).toBe("input.too-deep");
    expect(readJson("[".repeat(64) + "]".repeat(64))).toBeInstanceOf(Array);
  });

  it("law: agrees with JSON.parse on every JSON text, and takes none that it refuses", () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 8 }), fc.nat(), fc.string({ maxLength: 1 }), (text, at, char) => {
        expect(readJson(text)).toEqual(JSON.parse(text));
        const cut = at % (text.length + 1);
        const broken = text.slice(0, cut) + char + text.slice(cut + 1);
        let value: unknown;
        try {
          value = readJson(broken);
        } catch (error) {
          expect(error).toBeInstanceOf(BoothkeepError);
          expect((error as BoothkeepError).place.line).toBeGreaterThanOrEqual(1);
          return;
        }
        expect(value).toEqual(JSON.parse(broken));
      }),
      { numRuns: 1000 },
    );
  });

  it("says where each value begins", () => {
    const text = '{\n  "a/b": [1,\n   {"c~d": null}]\n}';
    const positions = valuePositions(text);
    expect(positions.get("")).toEqual({ line: 1, column: 1 });
    expect(positions.get("/a~1b/0")).toEqual({ line: 2, column: 11 });
    expect(positions.get("/a~1b/1/c~0d")).toEqual({ line: 3, column: 12 });
    expect(positions.size).toBe(5);
  });
});
