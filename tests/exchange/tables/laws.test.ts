import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changesBetween } from "../../../src/diff/changes/index.ts";
import type { Configuration } from "../../../src/model/index.ts";
import { expectEqual } from "../../diff/changes/expect-equal.ts";
import { screens } from "../../diff/changes/samples.ts";
import { configurations as anyConfigurations } from "../../migrate/plan/arbitraries.ts";
import { runs } from "../../runs.ts";
import { byWorkbook, csvFiles, type LooseTable, looseTables, taken } from "./support.ts";

/** As a file holds them. */
const configurations = anyConfigurations.map((made) => JSON.parse(JSON.stringify(made)) as Configuration);

/** A cell with a number, and the number that comes there. */
const edits = fc.array(fc.tuple(fc.nat(), fc.integer({ min: -400, max: 400 })), {
  minLength: 1,
  maxLength: 8,
});

const MOVABLE = /\((dB|ms)\)$/;

interface Edited {
  readonly table: LooseTable;
  readonly row: number;
  readonly column: number;
}

/** Changes numbers of tables by little that every range holds; gives which cells are other ones now. */
function withNumbers(tables: LooseTable[], changes: readonly (readonly [number, number])[]): Edited[] {
  const spots = tables.flatMap((table) =>
    table.rows.flatMap((cells, row) =>
      cells.flatMap((cell, column) =>
        typeof cell === "number" && MOVABLE.test(table.headings[column]!) ? [{ table, row, column }] : [],
      ),
    ),
  );
  const chosen = new Map(changes.map(([pick, by]) => [pick % spots.length, by]));
  return [...chosen].flatMap(([pick, by]) => {
    const spot = spots[pick]!;
    const cells = spot.table.rows[spot.row]!;
    const before = cells[spot.column] as number;
    const after = /\(ms\)$/.test(spot.table.headings[spot.column]!) ? Math.abs(by) / 8 : by / 40;
    cells[spot.column] = after;
    return Object.is(after + 0, before) ? [] : [spot];
  });
}

function shuffled<T>(items: readonly T[], seed: number): T[] {
  const copy = [...items];
  let chance = seed + 1;
  for (let index = copy.length - 1; index > 0; index -= 1) {
    chance = (chance * 48_271) % 2_147_483_647;
    const other = chance % (index + 1);
    [copy[index], copy[other]] = [copy[other]!, copy[index]!];
  }
  return copy;
}

/** The same table with its rows and columns in another order. */
function reordered(table: LooseTable, seed: number): LooseTable {
  const order = shuffled(
    table.headings.map((_, index) => index),
    seed,
  );
  return {
    name: table.name,
    headings: order.map((index) => table.headings[index]!),
    rows: shuffled(table.rows, seed + 1).map((row) => order.map((index) => row[index])),
  };
}

describe("tables of a configuration", () => {
  it("taken back by CSV change nothing", () => {
    fc.assert(
      fc.property(configurations, (configuration) => {
        const back = taken(configuration, csvFiles(looseTables(configuration)));
        expectEqual(back.configuration, configuration);
        expect(back.tables.reduce((sum, { cells }) => sum + cells, 0)).toBe(0);
      }),
      { numRuns: runs(10) },
    );
  });

  it("taken back by a workbook change nothing", async () => {
    await fc.assert(
      fc.asyncProperty(configurations, async (configuration) => {
        const sheets = await byWorkbook(looseTables(configuration));
        expectEqual(taken(configuration, [{ file: "tables.xlsx", sheets }]).configuration, configuration);
      }),
      { numRuns: runs(4) },
    );
  });

  it.each(screens.map((screen) => [screen.unit.profileId, screen.screen.screenName, screen] as const))(
    "of the sample %s, %s, taken back by CSV with commas and semicolons and by a workbook change nothing",
    async (_profile, _name, screen) => {
      const tables = looseTables(screen);
      expectEqual(taken(screen, csvFiles(tables)).configuration, screen);
      const sheets = await byWorkbook(tables);
      expectEqual(taken(screen, [{ file: "tables.xlsx", sheets }]).configuration, screen);
    },
  );

  it("change exactly the values of the cells that were changed", () => {
    fc.assert(
      fc.property(fc.constantFrom(...screens), edits, (screen, changes) => {
        const tables = looseTables(screen);
        const edited = withNumbers(tables, changes);
        const { configuration } = taken(screen, csvFiles(tables));
        const found = changesBetween(screen, configuration).changes;
        expect(found).toHaveLength(edited.length);
        const wanted = edited.map(({ table, row, column }) => table.rows[row]![column]);
        expect(found.map((change) => ("after" in change ? change.after : undefined)).sort()).toEqual(
          wanted.sort(),
        );
      }),
      { numRuns: runs(10) },
    );
  });

  it("carry what they say onto the configuration before", () => {
    fc.assert(
      fc.property(fc.constantFrom(...screens), edits, (screen, changes) => {
        const tables = looseTables(screen);
        withNumbers(tables, changes);
        const { configuration } = taken(screen, csvFiles(tables));
        expectEqual(taken(screen, csvFiles(looseTables(configuration))).configuration, configuration);
        expectEqual(taken(configuration, csvFiles(looseTables(screen))).configuration, screen);
      }),
      { numRuns: runs(5) },
    );
  });

  it("say the same with rows and columns in any order, and without what did not change", () => {
    fc.assert(
      fc.property(fc.constantFrom(...screens), edits, fc.nat(), (screen, changes, seed) => {
        const tables = looseTables(screen);
        const edited = withNumbers(tables, changes);
        const whole = taken(screen, csvFiles(tables)).configuration;
        const orders = tables.map((table) => reordered(table, seed % 1e6));
        expectEqual(taken(screen, csvFiles(shuffled(orders, seed % 1e6))).configuration, whole);
        const few = tables.flatMap((table) => onlyEdited(table, edited));
        if (few.length > 0) expectEqual(taken(screen, csvFiles(few)).configuration, whole);
      }),
      { numRuns: runs(5) },
    );
  });
});

/** A table with nothing but the keys and the cells that were changed. */
function onlyEdited(table: LooseTable, edited: readonly Edited[]): LooseTable[] {
  const own = edited.filter((spot) => spot.table === table);
  if (own.length === 0) return [];
  const columns = new Set(own.map(({ column }) => column));
  const kept = table.headings.flatMap((heading, index) =>
    columns.has(index) ||
    /^(Source|Source channel|Program channel|EQ set|Filter|Preset|Crossing|Output)$/.test(heading)
      ? [index]
      : [],
  );
  const rows = [...new Set(own.map(({ row }) => row))];
  return [
    {
      name: table.name,
      headings: kept.map((index) => table.headings[index]!),
      rows: rows.map((row) => kept.map((index) => table.rows[row]![index])),
    },
  ];
}

/** The configuration stays as it was. */
describe("taking a table", () => {
  it("leaves the configuration before as it is", () => {
    const screen: Configuration = structuredClone(screens[0]!);
    const tables = looseTables(screen);
    withNumbers(tables, [
      [3, 17],
      [90, -33],
    ]);
    taken(screen, csvFiles(tables));
    expectEqual(screen, screens[0]);
  });
});
