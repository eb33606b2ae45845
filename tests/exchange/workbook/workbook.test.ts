import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import * as SheetJs from "@e965/xlsx";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { harmless } from "../../../src/base/text/index.ts";
import { readCsv, readWorkbook, type Sheet, writeWorkbook } from "../../../src/exchange/workbook/index.ts";
import { workbookParts } from "../../../src/exchange/workbook/workbook-parts.ts";
import { handMadeZip } from "../../logbook/pack/support.ts";
import { outside, requireOutside } from "../../outside.ts";
import { runs } from "../../runs.ts";
import { handMadeWorkbook } from "./hand-made-workbook.ts";

const text = fc.oneof(
  fc.string({ unit: "binary", maxLength: 12 }),
  fc.constantFrom(
    "=1+1",
    "-3",
    "+x",
    "@x",
    "_x0041_",
    " x ",
    "5.1",
    "1/2",
    "none",
    "<&>\"'",
    "a\nb",
    "TRUE",
    "ä€😀",
    "\ufffdx",
    "\ufffe",
    "\u{1fffe}\u0000",
    "\u{10ffff}",
    "\ufdd0",
  ),
);
const number = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }),
  fc.integer({ min: -500, max: 500 }).map((tenths) => tenths / 10),
);
const cell = fc.oneof(
  text,
  number.map((value) => value + 0),
  fc.constant(undefined),
);
const rows = fc
  .integer({ min: 1, max: 5 })
  .chain((width) =>
    fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 6 }),
  );

type Cells = (string | number | undefined)[][];

/** What a reader must find: no empty rows, no empty cells at the end of a row, nothing that acts. */
function shown(table: Cells): { number: number; cells: (string | number | undefined)[] }[] {
  return table.flatMap((row, index) => {
    const cells = row.map((value) => (typeof value === "string" ? harmless(value) || undefined : value));
    while (cells.length > 0 && cells.at(-1) === undefined) cells.pop();
    return cells.length === 0 ? [] : [{ number: index + 1, cells }];
  });
}

describe("a workbook", () => {
  it("gives back what was written: numbers, texts, gaps", async () => {
    await fc.assert(
      fc.asyncProperty(rows, async (table) => {
        const [sheet] = await readWorkbook(await writeWorkbook([{ name: "outputs", rows: table }]));
        expect(sheet).toEqual({ name: "outputs", decimal: ".", rows: shown(table) });
      }),
      { numRuns: runs(40) },
    );
  });

  it("is read by a second reader as it was written, with no formula in it", async () => {
    await fc.assert(
      fc.asyncProperty(rows, async (table) => {
        const book = SheetJs.read(
          await writeWorkbook([
            { name: "a", rows: table },
            { name: "b", rows: [["x"]] },
          ]),
        );
        expect(book.SheetNames).toEqual(["a", "b"]);
        const sheet = book.Sheets.a!;
        table.forEach((row, r) => {
          row.forEach((value, c) => {
            const read = sheet[SheetJs.utils.encode_cell({ r, c })] as
              | { v?: unknown; t?: string; f?: string }
              | undefined;
            const written = typeof value === "string" ? harmless(value) : value;
            expect(read?.v ?? "").toEqual(written ?? "");
            if (typeof value === "number") expect(read?.t).toBe("n");
            if (typeof value === "string" && value !== "") expect(read?.t).toBe("s");
            expect(read?.f).toBeUndefined();
          });
        });
      }),
      { numRuns: runs(40) },
    );
  });

  it("offers the words of a column, if they are few enough for a list in the cell", async () => {
    const many = Array.from({ length: 90 }, (_none, i) => `word-${i}`);
    const rows = [
      ["a", "b", "c", "d"],
      [1, "x", "x", "x"],
    ];
    const choices = [undefined, ["yes", "no"], many, ["a,b"]];
    const bytes = await writeWorkbook([{ name: "a", rows, choices }]);
    const text = (await workbookParts(bytes)).get("xl/worksheets/sheet1.xml")!;
    expect(text.match(/<dataValidation /g)).toHaveLength(1);
    expect(text).toContain('sqref="B2:B102"><formula1>"yes,no"</formula1>');
    const [sheet] = await readWorkbook(bytes);
    expect(sheet!.rows).toHaveLength(2);
    expect(SheetJs.read(bytes).Sheets.a!["!ref"]).toBe("A1:D2");
  });

  it("that a second writer wrote is read as that writer meant it", async () => {
    await fc.assert(
      fc.asyncProperty(rows, fc.boolean(), async (table, shared) => {
        // The second writer leaves texts like "_x0041_" as they are, which ECMA-376-1, 22.9.2.19 gives another meaning.
        const clean = table.map((row) =>
          row.map((value) => (typeof value === "string" ? harmless(value).replaceAll("_x", "x") : value)),
        );
        const book = SheetJs.utils.book_new();
        SheetJs.utils.book_append_sheet(book, SheetJs.utils.aoa_to_sheet(clean), "outputs");
        const bytes = SheetJs.write(book, {
          type: "buffer",
          bookType: "xlsx",
          bookSST: shared,
          compression: true,
        });
        const [sheet] = await readWorkbook(bytes as Uint8Array);
        expect(sheet?.rows).toEqual(shown(clean));
      }),
      { numRuns: runs(40) },
    );
  });

  it("keeps headings and keys in sight and has columns as wide as their cells", async () => {
    const bytes = await writeWorkbook([{ name: "a", rows: [["Output"], ["left-hf"]], fixedColumns: 1 }]);
    const book = SheetJs.read(bytes, { cellStyles: true });
    expect(book.Sheets.a!["!cols"]?.[0]?.wch).toBeGreaterThanOrEqual(7);
    const xml = (await workbookParts(bytes)).get("xl/worksheets/sheet1.xml");
    expect(xml).toMatch(/<pane [^>]*ySplit="1"[^>]*state="frozen"/);
    expect(xml).toMatch(/<pane [^>]*xSplit="1"/);
  });

  it("tells yes and no, texts with parts, texts in the cell, escapes, cells without a reference", async () => {
    const [sheet] = await readWorkbook(
      handMadeWorkbook({
        rows: '<row><c t="b"><v>1</v></c><c t="s"><v>0</v></c><c t="inlineStr"><is><t>in</t></is></c><c t="str"><v>str</v></c></row><row r="5"><c r="C5"><v>-0.5</v></c></row>',
        shared:
          '<si><r><t>a</t></r><r><t xml:space="preserve"> _x0042_&#67;</t></r><rPh><t>no</t></rPh></si>',
      }),
    );
    expect(sheet?.rows).toEqual([
      { number: 1, cells: [true, "a BC", "in", "str"] },
      { number: 5, cells: [undefined, undefined, -0.5] },
    ]);
  });

  it("tells formulas, dates and errors as what they are", async () => {
    const [sheet] = await readWorkbook(
      handMadeWorkbook({
        rows: '<row r="1"><c r="A1"><f>1+1</f><v>2</v></c><c r="B1" s="1"><v>46143</v></c><c r="C1" s="2"><v>46143</v></c><c r="D1" s="3"><v>1.5</v></c><c r="E1" t="e"><v>#REF!</v></c><c r="F1" t="d"><v>2026-05-01</v></c><c r="G1" t="str"><f>A1&amp;""</f><v>x</v></c></row>',
        styles:
          '<numFmts><numFmt numFmtId="164" formatCode="[$-407]d\\. mmm"/><numFmt numFmtId="165" formatCode="0.0&quot; dB&quot;"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="165"/></cellXfs>',
      }),
    );
    expect(sheet?.rows[0]?.cells).toEqual([
      { unusable: "formula", shown: "2" },
      { unusable: "date", shown: "46143" },
      { unusable: "date", shown: "46143" },
      1.5,
      { unusable: "error", shown: "#REF!" },
      { unusable: "date", shown: "2026-05-01" },
      { unusable: "formula", shown: "x" },
    ]);
  });
});

const BILLION = '<!DOCTYPE lolz [<!ENTITY lol "lol"><!ENTITY lol2 "&lol;&lol;&lol;">]>';

/** What is hostile, the workbook, the code, the words. */
const HOSTILE: readonly (readonly [string, Uint8Array, "table.unsafe" | "table.not-readable", RegExp])[] = [
  [
    "macros in it",
    handMadeWorkbook({ more: [{ name: "xl/vbaProject.bin", content: "x" }] }),
    "table.unsafe",
    /macros/,
  ],
  [
    "the type of one with macros",
    handMadeWorkbook({ contentType: "application/vnd.ms-excel.sheet.macroEnabled.main+xml" }),
    "table.unsafe",
    /macros/,
  ],
  [
    "links to another workbook",
    handMadeWorkbook({ more: [{ name: "xl/externalLinks/externalLink1.xml", content: "<a/>" }] }),
    "table.unsafe",
    /links to other workbooks/,
  ],
  [
    "a connection",
    handMadeWorkbook({ more: [{ name: "xl/connections.xml", content: "<a/>" }] }),
    "table.unsafe",
    /connections/,
  ],
  [
    "an embedded object",
    handMadeWorkbook({ more: [{ name: "xl/embeddings/oleObject1.bin", content: "x" }] }),
    "table.unsafe",
    /embedded/,
  ],
  [
    "a part outside itself",
    handMadeWorkbook({
      relations: '<Relationship Id="e" Type="x" Target="file:///etc/passwd" TargetMode="External"/>',
    }),
    "table.unsafe",
    /outside itself/,
  ],
  ["entities", handMadeWorkbook({ prolog: BILLION }), "table.unsafe", /entities/],
  [
    "a name that climbs out",
    handMadeWorkbook({ more: [{ name: "../evil.xml", content: "x" }] }),
    "table.unsafe",
    /unsafe name/,
  ],
  [
    "an absolute name",
    handMadeWorkbook({ more: [{ name: "/etc/evil.xml", content: "x" }] }),
    "table.unsafe",
    /unsafe name/,
  ],
  [
    "a name in two cases",
    handMadeWorkbook({ more: [{ name: "XL/workbook.xml", content: "x" }] }),
    "table.not-readable",
    /twice/,
  ],
  [
    "a bomb",
    handMadeWorkbook({ more: [{ name: "xl/theme/theme1.xml", content: new Uint8Array(15_000_000) }] }),
    "table.unsafe",
    /swell/,
  ],
  [
    "a sheet that swells too far",
    handMadeWorkbook({ more: [{ name: "xl/a.xml", content: new Uint8Array(17_000_000) }] }),
    "table.unsafe",
    /too large/,
  ],
  [
    "a row far below",
    handMadeWorkbook({ rows: '<row r="1048576"><c r="A1048576"><v>1</v></c></row>' }),
    "table.unsafe",
    /more than 20000 rows/,
  ],
  [
    "a row beyond every count",
    handMadeWorkbook({ rows: '<row r="99999999999"><c><v>1</v></c></row>' }),
    "table.unsafe",
    /more than 20000 rows/,
  ],
  [
    "a column far to the right",
    handMadeWorkbook({ rows: '<row r="1"><c r="XFD1"><v>1</v></c></row>' }),
    "table.unsafe",
    /400 columns/,
  ],
  [
    "cells out of order",
    handMadeWorkbook({ rows: '<row r="1"><c r="B1"><v>1</v></c><c r="A1"><v>1</v></c></row>' }),
    "table.not-readable",
    /out of order/,
  ],
  [
    "one row twice",
    handMadeWorkbook({
      rows: '<row r="1"><c r="A1"><v>1</v></c></row><row r="1"><c r="B1"><v>1</v></c></row>',
    }),
    "table.not-readable",
    /out of order/,
  ],
  [
    "a number that is none",
    handMadeWorkbook({ rows: '<row r="1"><c r="A1"><v>1e999</v></c></row>' }),
    "table.not-readable",
    /number of A1/,
  ],
  [
    "a text that is missing",
    handMadeWorkbook({ rows: '<row r="1"><c r="A1" t="s"><v>7</v></c></row>' }),
    "table.not-readable",
    /text of A1/,
  ],
  [
    "merged cells",
    handMadeWorkbook({ after: '<mergeCells count="1"><mergeCell ref="A1:B2"/></mergeCells>' }),
    "table.not-readable",
    /merged cells/,
  ],
  ["broken XML", handMadeWorkbook({ sheet: "<worksheet><sheetData>" }), "table.not-readable", /damaged/],
  ["another root", handMadeWorkbook({ sheet: "<html/>" }), "table.not-readable", /damaged/],
  [
    "a part that is missing",
    handMadeWorkbook({ without: ["xl/worksheets/sheet1.xml"] }),
    "table.not-readable",
    /missing/,
  ],
  [
    "no workbook in it",
    handMadeWorkbook({ without: ["[Content_Types].xml"] }),
    "table.not-readable",
    /no workbook/,
  ],
  [
    "bytes behind its end",
    Buffer.concat([handMadeWorkbook(), Buffer.alloc(9)]),
    "table.not-readable",
    /follow after the end/,
  ],
  [
    "the form of a locked or old one",
    Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1),
    "table.not-readable",
    /password/,
  ],
  [
    "the form of another kind of spreadsheet",
    handMadeZip([
      { name: "mimetype", method: 0, content: "application/vnd.oasis.opendocument.spreadsheet" },
      { name: "content.xml", content: "<a/>" },
    ]),
    "table.not-readable",
    /another kind \(OpenDocument\)/,
  ],
  [
    "nothing of a zip",
    Buffer.from("Output,Output gain (dB)\n"),
    "table.not-readable",
    /does not start like a zip/,
  ],
];

describe("a hostile workbook", () => {
  it.each(HOSTILE.map(([what, bytes, code, words]) => ({ what, bytes, code, words })))(
    "with $what is refused in its own words",
    async ({ bytes, code, words }) => {
      await expect(readWorkbook(bytes)).rejects.toMatchObject({
        code,
        exitCode: 2,
        message: expect.stringMatching(words),
        next: expect.stringMatching(/\.$/),
      });
    },
  );

  it("never ends in anything but cells or a refusal, whatever byte is changed", async () => {
    const whole = handMadeWorkbook({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' });
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), async (at, by) => {
        const bytes = Uint8Array.from(whole);
        bytes[at]! ^= by;
        const read: unknown = await readWorkbook(bytes).catch((error: unknown) => error);
        if (read instanceof Error) expect(read).toMatchObject({ name: "BoothkeepError" });
      }),
      { numRuns: runs(150) },
    );
  });
});

describe.runIf(outside("soffice"))("LibreOffice", () => {
  const table: Cells = [
    ["Output", "Output gain (dB)", "Output delay (ms)", "Name of the output"],
    ["left-hf", -3.5, 0.020833333333333332, "=1+1"],
    ["left-lf", 0.1, 12, "-x"],
    ["sub", -0.30000000000000004, 1e-7, "5.1"],
  ];

  function converted(bytes: Uint8Array, from: string, to: string): Buffer {
    const folder = mkdtempSync(join(tmpdir(), "boothkeep-office-"));
    try {
      writeFileSync(join(folder, `table.${from}`), bytes);
      const out = join(folder, "out");
      const { stderr, status } = spawnSync(
        requireOutside("soffice"),
        [
          `-env:UserInstallation=file://${folder}/profile`,
          "--headless",
          "--convert-to",
          to,
          "--outdir",
          out,
          join(folder, `table.${from}`),
        ],
        { encoding: "utf8" },
      );
      if (status !== 0) throw new Error(stderr);
      return readFileSync(join(out, `table.${to.split(":")[0]}`));
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }

  it("reads a workbook and saves it again with the same cells", { timeout: 120_000 }, async () => {
    const bytes = await writeWorkbook([{ name: "outputs", rows: table }]);
    const again = await readWorkbook(converted(bytes, "xlsx", "xlsx"));
    const rounded = (sheet: Sheet) =>
      sheet.rows.map(({ cells }) =>
        cells.map((value) => (typeof value === "number" ? Number(value.toPrecision(15)) : value)),
      );
    expect(again.map(({ name }) => name)).toEqual(["outputs"]);
    expect(rounded(again[0]!)).toEqual(
      table.map((row) =>
        row.map((value) => (typeof value === "number" ? Number(value.toPrecision(15)) : value)),
      ),
    );
    const csv = readCsv(converted(bytes, "xlsx", "csv"));
    expect(csv.rows[1]?.cells[3]).toBe("=1+1");
    expect(csv.rows[1]?.cells[1]).toBe("-3.5");
  });
});
