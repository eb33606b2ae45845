import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  readMeasurement,
  readPositions,
  takeMeasurement,
  takeTables,
} from "../../../src/exchange/tables/index.ts";
import { readCsv, type Sheet, type SheetCell } from "../../../src/exchange/workbook/index.ts";
import { inspectDocument } from "../../../src/model/index.ts";
import { asLeft, screens } from "../../diff/changes/samples.ts";
import { runs } from "../../runs.ts";
import { looseTables, profileOf } from "./support.ts";

/** What may stand in a cell, sensible or not. */
const cell: fc.Arbitrary<SheetCell> = fc.oneof(
  fc.constantFrom(
    undefined,
    "none",
    "yes",
    "no",
    "",
    "__proto__",
    "constructor",
    "peaking",
    "notch",
    "low-shelf",
    "bessel",
    "octave-10",
    "third-octave-31",
    "spare",
    "L",
    "feature",
    "x",
    "-3,5",
    "1e9",
    true,
  ),
  fc.string({ unit: "binary", maxLength: 6 }),
  fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e5, max: 1e5 }),
  fc.integer({ min: -20, max: 40 }),
  fc.record({
    unusable: fc.constantFrom("formula" as const, "date" as const, "error" as const),
    shown: fc.string({ maxLength: 4 }),
  }),
);

const strikes = fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat(), cell), { minLength: 1, maxLength: 6 });

/** Sheets of a sample with cells struck by anything, headings and keys among them. */
function struck(
  screen: typeof asLeft,
  hits: readonly (readonly [number, number, number, SheetCell])[],
): Sheet[] {
  const sheets = looseTables(screen).map(({ name, headings, rows }) => ({
    name,
    grid: [headings, ...rows] as SheetCell[][],
  }));
  for (const [sheet, row, column, value] of hits) {
    const { grid } = sheets[sheet % sheets.length]!;
    // One strike in eight hits the headings.
    const line = row % 8 === 0 ? grid[0]! : grid[1 + (row % (grid.length - 1))]!;
    line[column % line.length] = value;
  }
  return sheets.map(({ name, grid }) => ({
    name,
    decimal: ".",
    rows: grid.map((cells, index) => ({ number: index + 1, cells })),
  }));
}

describe("whatever stands in tables", () => {
  it("ends in a configuration that fits its schema, or in problems with words", () => {
    fc.assert(
      fc.property(fc.constantFrom(...screens), strikes, fc.boolean(), (screen, hits, nearest) => {
        const files = [{ file: "t.xlsx", sheets: struck(screen, hits) }];
        let result: ReturnType<typeof takeTables>;
        try {
          result = takeTables(screen, files, { profile: profileOf(screen), nearest });
        } catch (error) {
          // A cell that looks like a secret.
          expect(error).toBeInstanceOf(BoothkeepError);
          return;
        }
        if (result.kind === "refused") {
          expect(result.total).toBeGreaterThanOrEqual(result.problems.length);
          expect(result.problems.length).toBeGreaterThan(0);
          for (const { file, words, next } of result.problems) {
            expect(file).toBe("t.xlsx");
            expect(words.length * next.length).toBeGreaterThan(0);
          }
        } else {
          const { shape } = inspectDocument(JSON.stringify(result.configuration));
          expect(shape.problems).toEqual([]);
        }
        expect(({} as Record<string, unknown>).kind).toBeUndefined();
      }),
      { numRuns: runs(30) },
    );
  });

  it("ends so with random texts, too", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => {
        let sheet: Sheet;
        try {
          sheet = readCsv(Buffer.from(text, "utf8"));
        } catch (error) {
          expect(error).toBeInstanceOf(BoothkeepError);
          return;
        }
        expect(["taken", "refused"]).toContain(takeTables(asLeft, [{ file: "x.csv", sheets: [sheet] }]).kind);
        expect(["read", "refused"]).toContain(readMeasurement(sheet, "x.csv", asLeft).kind);
        expect(["read", "refused"]).toContain(readPositions(sheet, "x.csv").kind);
      }),
      { numRuns: runs(40) },
    );
  });

  it("and with measurements", () => {
    const grid = (): SheetCell[][] => [
      ["Frequency (Hz)", "L at p1", "L at p2", "C"],
      ...[
        40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150,
      ].map((hz) => [hz, 70, 71, 72]),
      ...[4000, 5000, 6300, 8000, 10_000, 12_500, 16_000].map((hz) => [hz, 70, 71, 72]),
      ["Measured level", 85, 85, 85],
    ];
    fc.assert(
      fc.property(strikes, (hits) => {
        const rows = grid();
        for (const [, row, column, value] of hits) rows[row % rows.length]![column % 4] = value;
        const sheet: Sheet = {
          decimal: ".",
          rows: rows.map((cells, index) => ({ number: index + 1, cells })),
        };
        const read = readMeasurement(sheet, "m.csv", asLeft);
        if (read.kind === "refused") {
          expect(read.problems.length).toBeGreaterThan(0);
          return;
        }
        try {
          const { configuration } = takeMeasurement(asLeft, read.columns, { date: "2026-11-02", by: "team" });
          expect(inspectDocument(JSON.stringify(configuration)).shape.problems).toEqual([]);
        } catch (error) {
          expect(error).toMatchObject({ code: "table.does-not-fit" });
        }
      }),
      { numRuns: runs(40) },
    );
  });
});
