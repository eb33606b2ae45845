import { DOMParser } from "@xmldom/xmldom";
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { decodeText, encodeText } from "../../../src/exchange/fieldmap/encoding.ts";
import { readTree } from "../../../src/exchange/fieldmap/sources/index.ts";
import type { ExportTree } from "../../../src/exchange/fieldmap/tree.ts";
import type { ExportSource } from "../../../src/model/index.ts";
import { SAMPLE_EXPORTS } from "./sample-maps.ts";

const XML: ExportSource = { kind: "xml", lists: ["a"] };
const TABLE: ExportSource = { kind: "table", delimiter: ",", header: "none" };
const SECTIONS: ExportSource = {
  kind: "key-value",
  separator: "=",
  sections: true,
  divider: ".",
  comments: [";"],
};
const LINES: ExportSource = {
  kind: "lines",
  forms: [
    { form: "OUT {out} GAIN {gain}", at: "/out/{out}" },
    { form: "OUT {out} NAME {name:quoted}", at: "/out/{out}" },
    { form: "ROUTE {from} {to}", at: "/route/-" },
  ],
  comments: ["#"],
};

const plain = (tree: ExportTree): unknown => JSON.parse(JSON.stringify(tree.root));
const refuse = (text: string, source: ExportSource) => {
  try {
    readTree(text, source);
  } catch (error) {
    return error as {
      readonly code: string;
      readonly message: string;
      readonly place: { readonly line?: number };
    };
  }
  throw new Error(`'${text}' was read`);
};

/** Puts the same value into each place: nothing may change. */
function rewritten(text: string, source: ExportSource): string {
  const tree = readTree(text, source);
  let out = text;
  for (const leaf of [...tree.leaves.values()].sort((a, b) => b.start - a.start)) {
    const written = tree.write(leaf, leaf.raw);
    expect(written, leaf.pointer).toBeDefined();
    out = out.slice(0, leaf.start) + written + out.slice(leaf.end);
  }
  return out;
}

describe("JSON", () => {
  it("has the values of JSON.parse, each at its place", () => {
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 5, noUnicodeString: false } as never),
        fc.integer({ min: 0, max: 3 }),
        (json, indent) => {
          const value = JSON.parse(json) as unknown;
          fc.pre(!JSON.stringify(value).includes("\\ud"));
          const text = JSON.stringify(value, null, indent);
          const tree = readTree(text, { kind: "json" });
          expect(plain(tree)).toEqual(JSON.parse(text));
          for (const { start, end, raw, style } of tree.leaves.values()) {
            const there = JSON.parse(text.slice(start, end)) as unknown;
            expect(style === "json-string" ? there : text.slice(start, end)).toBe(raw);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it("cannot reach a prototype", () => {
    const tree = readTree('{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":2}}}', {
      kind: "json",
    });
    expect(tree.leaves.get("/__proto__/polluted")?.raw).toBe("1");
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect(Object.getPrototypeOf(tree.root)).toBeNull();
  });

  it("refuses a name that stands twice, and nesting without end", () => {
    expect(refuse('{"a":1,"a":2}', { kind: "json" }).code).toBe("input.duplicate-name");
    expect(refuse("[".repeat(100_000), { kind: "json" }).code).toBe("input.too-deep");
  });
});

describe("XML", () => {
  const text = SAMPLE_EXPORTS[0]!.bytes.toString("utf8");

  it("has the attributes and texts that a second parser finds", () => {
    const { source } = SAMPLE_EXPORTS[0]!.loaded.map;
    const ours = [...readTree(text, source).leaves.values()]
      .map(({ raw }) => raw)
      .filter((raw) => raw.trim() !== "");
    const theirs: string[] = [];
    const visit = (node: {
      childNodes?: ArrayLike<never>;
      attributes?: ArrayLike<{ value: string }>;
      nodeType: number;
      nodeValue?: string | null;
    }) => {
      for (const { value } of Array.from(node.attributes ?? [])) if (value.trim() !== "") theirs.push(value);
      if (node.nodeType === 3 && node.nodeValue?.trim()) theirs.push(node.nodeValue);
      for (const child of Array.from(node.childNodes ?? [])) visit(child);
    };
    visit(new DOMParser().parseFromString(text, "text/xml") as never);
    expect(theirs.length).toBeGreaterThan(3000);
    expect(ours.sort()).toEqual(theirs.sort());
  });

  it("reads entities of XML itself, character references, CDATA, and writes them back", () => {
    const source = '<r x="a&amp;b &#65;&#x42; &quot;"><t>&lt;1&gt;</t><c><![CDATA[<&>]]></c><e/><f></f></r>';
    const tree = readTree(source, XML);
    expect(plain(tree)).toEqual({ r: { "@x": 'a&b AB "', t: "<1>", c: "<&>", e: "", f: "" } });
    const write = (pointer: string, raw: string) => tree.write(tree.leaves.get(pointer)!, raw);
    expect(write("/r/@x", '"<&')).toBe('"&quot;&lt;&amp;"');
    expect(write("/r/e", "x<y")).toBe(">x&lt;y</e>");
    expect(write("/r/c", "]]>")).toBeUndefined();
    expect(write("/r/t", "\u0000")).toBeUndefined();
  });

  it.each([
    ["an entity bomb", '<!DOCTYPE r [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><r>&b;</r>', /DOCTYPE/],
    ["an outside entity", '<!DOCTYPE r SYSTEM "file:///etc/passwd"><r/>', /DOCTYPE/],
    ["an unknown entity", "<r>&nbsp;</r>", /no entity/],
    ["two roots", "<r/><r/>", /after the end/],
    ["text beside the root", "<r/>x", /after the end/],
    ["an open element", "<r><t></r>", /closed by another name/],
    ["an end too early", "<r><t>", /not closed/],
    ["an attribute twice", '<r x="1" x="2"/>', /twice/],
    ["an element twice, undeclared", "<r><b/><b/></r>", /stands twice/],
    ["no XML", "hello", /does not begin/],
    [
      "another encoding than the map's",
      '<?xml version="1.0" encoding="ISO-8859-1"?><r/>',
      /the map says utf-8/,
    ],
    ["a forbidden character", "<r>&#0;</r>", /no entity/],
    ["nesting without end", `${"<q>".repeat(200)}`, /levels deep/],
  ])("refuses %s", (_name, broken, words) => {
    const error = refuse(broken, XML);
    expect(error.code).toBe("export.not-readable");
    expect(error.message).toMatch(words);
    expect(error.place.line).toBe(1);
  });
});

describe("tables (RFC 4180)", () => {
  it("has the fields that a second parser finds, and writes each back as it was", () => {
    const cell = fc.string({ maxLength: 6, unit: fc.constantFrom("a", "1", " ", ",", '"', "\n", "é") });
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
        (rows) => {
          const text = Papa.unparse(rows, { newline: "\r\n" });
          const tree = readTree(text, TABLE);
          expect(plain(tree)).toEqual(Papa.parse(text, { newline: "\r\n" }).data);
          expect(rewritten(text, TABLE)).toBe(text);
        },
      ),
      { numRuns: 200 },
    );
  });

  it("tells tables apart by marked headers", () => {
    const source: ExportSource = { kind: "table", delimiter: ";", header: "by-mark", mark: "#" };
    expect(plain(readTree("#A;x;y\r\nA;1;2\r\n#B;z\r\nB;3\r\nA;4;5\r\n", source))).toEqual({
      A: [
        { x: "1", y: "2" },
        { x: "4", y: "5" },
      ],
      B: [{ z: "3" }],
    });
    expect(refuse("B;3\n", source).message).toMatch(/No header row/);
    expect(refuse("#A;x\nA;1;2\n", source).message).toMatch(/2 fields/);
    expect(refuse("#A;x;x\n", source).message).toMatch(/twice/);
  });

  it.each(['a,"b', 'a,"b"c', '"a"b,c'])("refuses broken quotes: %s", (text) => {
    expect(refuse(text, TABLE).code).toBe("export.not-readable");
  });
});

describe("keys with values", () => {
  const text = '; made by hand\r\n[out.1]\r\ngain = -3.5 \r\nname=" L "\r\n\r\n[out.2]\r\neq.1.hz=80\r\n';

  it("reads sections and divided keys, with all but the value left alone", () => {
    expect(plain(readTree(text, SECTIONS))).toEqual({
      out: { 1: { gain: "-3.5", name: " L " }, 2: { eq: { 1: { hz: "80" } } } },
    });
    expect(rewritten(text, SECTIONS)).toBe(text);
  });

  it("refuses a key that stands twice, a section as a value, a line of neither kind", () => {
    expect(refuse("[a]\nx=1\n[a]\nx=2\n", SECTIONS).message).toMatch(/twice/);
    expect(refuse("a=1\n[a]\nx=2\n", SECTIONS).message).toMatch(/twice/);
    expect(refuse("[a]\nhello\n", SECTIONS).place.line).toBe(2);
  });

  it("takes no line end and no lost space as a value", () => {
    const tree = readTree("x=1\n", SECTIONS);
    const leaf = tree.leaves.get("/x")!;
    expect([tree.write(leaf, "2\ny=3"), tree.write(leaf, " 2"), tree.write(leaf, "2")]).toEqual([
      undefined,
      undefined,
      "2",
    ]);
  });
});

describe("lines of declared forms", () => {
  const text = '# hello\nOUT 1 GAIN -3\nOUT 1  NAME "Left hf"\nROUTE a b\nROUTE c d\nSPEED 9\n';

  it("reads them, and keeps the lines of no form as values", () => {
    expect(plain(readTree(text, LINES))).toEqual({
      out: { 1: { gain: "-3", name: "Left hf" } },
      route: [
        { from: "a", to: "b" },
        { from: "c", to: "d" },
      ],
      "unknown-lines": [{ line: "SPEED 9" }],
    });
    expect(rewritten(text, LINES)).toBe(text);
  });

  it("refuses a value that stands twice, and forms that are none", () => {
    expect(refuse("OUT 1 GAIN 1\nOUT 1 GAIN 2\n", LINES).message).toMatch(/twice/);
    for (const form of ["A {x} {x}", "A {x", "A {x:other}"]) {
      expect(refuse("", { kind: "lines", forms: [{ form, at: "/a" }] }).code).toBe("field-map.unusable");
    }
  });

  it("goes along a line once: an unfit line of a million characters is read at once", () => {
    const forms = [{ form: "{a}-{b}-{c}-{d}-{e}x", at: "/a" }];
    const tree = readTree(`${"-".repeat(1_000_000)}\n`, { kind: "lines", forms });
    expect(tree.leaves.size).toBe(1);
  });

  it("cannot reach a prototype", () => {
    const tree = readTree("OUT __proto__ GAIN 1\n", LINES);
    expect(tree.leaves.get("/out/__proto__/gain")?.raw).toBe("1");
    expect(({} as Record<string, unknown>).gain).toBeUndefined();
  });
});

describe("encodings", () => {
  const text = "größer \u2013 \u{1f50a}\r\n";
  it.each([
    ["utf-8", [0xef, 0xbb, 0xbf]],
    ["utf-16le", [0xff, 0xfe]],
    ["utf-16be", [0xfe, 0xff]],
  ] as const)("%s with a byte order mark goes there and back", (encoding, mark) => {
    const bytes = encodeText({ text, encoding, byteOrderMark: true });
    expect([...bytes.subarray(0, mark.length)]).toEqual(mark);
    const decoded = decodeText(bytes);
    expect(decoded).toEqual({ text, encoding, byteOrderMark: true });
    expect(Buffer.from(encodeText(decoded)).equals(Buffer.from(bytes))).toBe(true);
  });

  it("takes the declared encoding where there is no mark", () => {
    expect(decodeText(Buffer.from(text, "utf16le"), "utf-16le").text).toBe(text);
    expect(decodeText(Buffer.from([0xe9, 0x80]), "latin-1").text).toBe("é\u0080");
  });

  it("refuses bytes and letters that are none of the encoding", () => {
    const wrong = expect.objectContaining({ code: "export.wrong-encoding" });
    expect(() => decodeText(Buffer.from([0x61, 0xe9]))).toThrow(wrong);
    expect(() => decodeText(Buffer.from([0x00, 0xd8]), "utf-16le")).toThrow(wrong);
    expect(() => encodeText({ text: "\u2013", encoding: "latin-1", byteOrderMark: false })).toThrow(wrong);
  });

  it("refuses an export of 100 MB before reading it", () => {
    const large = new Uint8Array(100 * 1024 * 1024);
    expect(() => decodeText(large)).toThrow(expect.objectContaining({ code: "input.too-large" }));
  });
});
