import { spawnSync } from "node:child_process";
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import {
  type CsvCell,
  csvCell,
  csvText,
  guarded,
  harmless,
  withoutGuard,
} from "../../../src/base/text/index.ts";
import { outside, requireOutside } from "../../outside.ts";

const text = fc.oneof(
  fc.string({ unit: "binary", maxLength: 12 }),
  fc.string({
    unit: fc.constantFrom("'", "=", "+", "-", "@", "\t", "\r", "\n", '"', ",", ";", " ", "a", "＝"),
    maxLength: 8,
  }),
);
const number = fc.double({ noNaN: true, noDefaultInfinity: true });
const table = fc.integer({ min: 2, max: 5 }).chain((width) =>
  fc.array(fc.array(fc.oneof(text, number), { minLength: width, maxLength: width }), {
    minLength: 1,
    maxLength: 6,
  }),
);

/** What a reader of CSV must find in a cell. */
function shown(cell: CsvCell): string {
  return typeof cell === "string" ? guarded(harmless(cell)) : String(cell ?? "");
}

describe("CSV", () => {
  it("follows RFC 4180, section 2: line ends, quotes doubled", () => {
    expect(
      csvText([
        ["a", 'b "c"'],
        ["d,e", -3.5],
      ]),
    ).toBe('a,"b ""c"""\r\n"d,e",-3.5\r\n');
    expect(csvCell('=1"')).toBe('"\'=1"""');
    expect(csvCell("plain")).toBe("plain");
  });

  it("has decimal commas and a byte order mark where they are asked for", () => {
    expect(
      csvText(
        [
          ["a", -3.5],
          [undefined, 2],
        ],
        { separator: ";", decimal: ",", byteOrderMark: true },
      ),
    ).toBe("\ufeffa;-3,5\r\n;2\r\n");
  });

  it("guards texts that a spreadsheet would run, never numbers", () => {
    for (const start of ["=", "+", "-", "@", "\t=", "\r=", " =", "\u200b=", "＝"]) {
      expect(guarded(`${start}1`)).toBe(`'${start}1`);
    }
    expect(csvText([[-1, "x"]])).toBe("-1,x\r\n");
  });

  it("takes a guard off again", () => {
    fc.assert(fc.property(text, (value) => withoutGuard(guarded(value)) === value));
  });

  it("is read by a second reader as it was written", () => {
    fc.assert(
      fc.property(table, fc.constantFrom(",", ";", "\t"), (rows, separator) => {
        const read = Papa.parse<string[]>(csvText(rows, { separator: separator as "," }), {
          delimiter: separator,
          newline: "\r\n",
          skipEmptyLines: false,
        });
        expect(read.data.slice(0, -1)).toEqual(rows.map((row) => row.map(shown)));
      }),
    );
  });

  it.runIf(outside("python"))("is read by Python's csv module", () => {
    const tables = fc.sample(table, { numRuns: 200, seed: 4180 });
    const program = `
import csv, io, json, sys
print(json.dumps([list(csv.reader(io.StringIO(t, newline=""), strict=True)) for t in json.load(sys.stdin)]))`;
    const { stdout } = spawnSync(requireOutside("python"), ["-c", program], {
      input: JSON.stringify(tables.map((rows) => csvText(rows))),
      encoding: "utf8",
      maxBuffer: 1e8,
    });
    expect(JSON.parse(stdout)).toEqual(tables.map((rows) => rows.map((row) => row.map(shown))));
  });
});
