import { describe, expect, it } from "vitest";
import { cellName, readCsv } from "../../../src/exchange/workbook/index.ts";

const read = (text: string, options = {}) => readCsv(Buffer.from(text, "utf8"), options);

describe("CSV", () => {
  it("is read with quotes, empty cells, blank lines and either line end", () => {
    expect(read('a,"b ""c"", d",\r\n\r\ne,,f\n').rows).toEqual([
      { number: 1, cells: ["a", 'b "c", d', undefined] },
      { number: 3, cells: ["e", undefined, "f"] },
    ]);
  });

  it("loses the apostrophe that guards a text, and no other", () => {
    expect(read("'=1,'-x,'plain,''=1,it's\n").rows[0]?.cells).toEqual(["=1", "-x", "'plain", "'=1", "it's"]);
  });

  it("is read in UTF-8, UTF-16 and Latin-1", () => {
    const rows = [{ number: 1, cells: ["ä", "b"] }];
    expect(readCsv(Buffer.from("\ufeffä,b\n", "utf8")).rows).toEqual(rows);
    expect(readCsv(Buffer.from("\ufeffä,b\n", "utf16le")).rows).toEqual(rows);
    expect(readCsv(Buffer.from("ä,b\n", "latin1"), { encoding: "latin-1" }).rows).toEqual(rows);
    expect(() => readCsv(Buffer.from("ä,b\n", "latin1"))).toThrow(
      expect.objectContaining({ code: "table.wrong-encoding", next: expect.stringContaining("--encoding") }),
    );
  });

  it("has decimal commas where semicolons separate, unless said otherwise", () => {
    expect(read("a;1,5\n", { separator: ";" })).toEqual({
      decimal: ",",
      rows: [{ number: 1, cells: ["a", "1,5"] }],
    });
    expect(read("a;1.5\n", { separator: ";", decimal: "." }).decimal).toBe(".");
    expect(read("a,1.5\n").decimal).toBe(".");
  });

  it.each([
    ["semicolons", "Output;Output gain (dB)\nx;1\n", {}, /separated by semicolons/, /--separator semicolon/],
    ["tabs", "Output\tOutput gain (dB)\nx\t1\n", {}, /separated by tabs/, /--separator tab/],
    [
      "commas where semicolons were said",
      "Output,Gain\nx,1\n",
      { separator: ";" },
      /separated by commas/,
      /--separator comma/,
    ],
    ["a quote that is not closed", 'a,"b\nc,d\n', {}, /no CSV/, /quotes/],
    ["zero bytes", "a\0b,c\n", {}, /no text/, /CSV file/],
    ["too many columns", `${"a,".repeat(500)}\n`, {}, /400 columns/, /one screen/],
    ["too many rows", "a,b\n".repeat(20_001), {}, /20000 rows/, /one screen/],
  ])("with %s is refused", (_what, text, options, words, next) => {
    expect(() => read(text, options)).toThrow(
      expect.objectContaining({
        code: "table.not-readable",
        message: expect.stringMatching(words),
        next: expect.stringMatching(next),
      }),
    );
  });

  it("of more than 8 MiB is refused unread", () => {
    expect(() => readCsv(new Uint8Array(8 * 1024 * 1024 + 1))).toThrow(/none is that large/);
  });

  it("cells have the names that spreadsheets give them", () => {
    expect([cellName(1, 1), cellName(7, 26), cellName(9, 27), cellName(2, 702), cellName(3, 703)]).toEqual([
      "A1",
      "Z7",
      "AA9",
      "ZZ2",
      "AAA3",
    ]);
  });
});
