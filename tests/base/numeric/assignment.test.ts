import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Assignment, leastCostAssignment, seededRandom } from "../../../src/base/numeric/index.ts";
import { outside, requireOutside } from "../../outside.ts";

type Table = readonly (readonly (readonly number[] | undefined)[])[];

function assign(table: Table): Assignment {
  return leastCostAssignment({
    rows: table.length,
    columns: table[0]?.length ?? 0,
    cost: (row, column) => table[row]![column],
  });
}

/** Every way to give columns to rows, rows left out included: most rows, least cost, first list. */
function bruteForce(table: Table): { columns: (number | undefined)[]; cost: readonly number[] } {
  const levels = table.flat().find((tuple) => tuple !== undefined)?.length ?? 0;
  let best: { columns: (number | undefined)[]; cost: readonly number[] } | undefined;
  const visit = (row: number, columns: (number | undefined)[], cost: readonly number[]): void => {
    if (row === table.length) {
      if (best === undefined || compareLists(cost, best.cost) < 0) best = { columns, cost };
      return;
    }
    table[row]!.forEach((tuple, column) => {
      if (tuple === undefined || columns.includes(column)) return;
      visit(row + 1, [...columns, column], [cost[0]!, ...tuple.map((value, l) => value + cost[l + 1]!)]);
    });
    visit(row + 1, [...columns, undefined], [cost[0]! + 1, ...cost.slice(1)]);
  };
  visit(0, [], new Array(levels + 1).fill(0));
  return { columns: best!.columns, cost: best!.cost.slice(1) };
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}

const tables = (
  shape: { rows: [number, number]; columns: [number, number] },
  most: number,
  forbidden: boolean,
) =>
  fc
    .tuple(
      fc.integer({ min: shape.rows[0], max: shape.rows[1] }),
      fc.integer({ min: shape.columns[0], max: shape.columns[1] }),
      fc.integer({ min: 1, max: 3 }),
    )
    .chain(([rows, columns, levels]) => {
      const tuple = fc.array(fc.integer({ min: -most, max: most }), { minLength: levels, maxLength: levels });
      const cell = forbidden ? fc.option(tuple, { nil: undefined, freq: 2 }) : tuple;
      const line = fc.array(cell, { minLength: columns, maxLength: columns });
      return fc.array(line, { minLength: rows, maxLength: rows });
    });

describe("leastCostAssignment", () => {
  it("finds what trying everything finds, forbidden pairs and too few columns included", () => {
    fc.assert(
      fc.property(tables({ rows: [1, 4], columns: [1, 5] }, 2, true), (table) => {
        const expected = bruteForce(table);
        const found = assign(table);
        expect(found.columnOfRow).toEqual(expected.columns);
        expect(found.cost).toEqual(expected.cost);
        expect(found.kind).toBe(expected.columns.includes(undefined) ? "incomplete" : "complete");
      }),
      { numRuns: 400 },
    );
  });

  it("agrees with munkres-js (Kuhn-Munkres) on random square and rectangular costs", () => {
    const munkres = createRequire(import.meta.url)("munkres-js") as (costs: number[][]) => [number, number][];
    const random = seededRandom(20);
    for (const [rows, columns] of [
      [5, 5],
      [8, 13],
      [16, 16],
      [24, 30],
    ] as const) {
      const costs = Array.from({ length: rows }, () =>
        Array.from({ length: columns }, () => Math.floor(random() * 1000)),
      );
      const theirs = munkres(costs.map((line) => [...line])).filter(
        ([row, column]) => row < rows && column < columns,
      );
      const sum = theirs.reduce((total, [row, column]) => total + costs[row]![column]!, 0);
      expect(assign(costs.map((line) => line.map((value) => [value]))).cost).toEqual([sum]);
    }
  });

  it.runIf(outside("scipy"))("agrees with scipy.optimize.linear_sum_assignment", () => {
    const random = seededRandom(21);
    const cases = Array.from({ length: 30 }, (_, index) => {
      const rows = 1 + Math.floor(random() * 30);
      const columns = rows + Math.floor(random() * 12);
      const span = index % 2 === 0 ? 10 : 100_000;
      return Array.from({ length: rows }, () =>
        Array.from({ length: columns }, () => Math.floor((random() - 0.3) * span)),
      );
    });
    const script = [
      "import json, sys, numpy",
      "from scipy.optimize import linear_sum_assignment",
      "sums = []",
      "for case in json.load(sys.stdin):",
      "    c = numpy.array(case)",
      "    r, k = linear_sum_assignment(c)",
      "    sums.append(int(c[r, k].sum()))",
      "print(json.dumps(sums))",
    ].join("\n");
    const python = spawnSync(requireOutside("scipy"), ["-c", script], {
      input: JSON.stringify(cases),
      encoding: "utf8",
    });
    expect(python.stderr).toBe("");
    const sums = JSON.parse(python.stdout) as number[];
    const ours = cases.map((table) => assign(table.map((line) => line.map((value) => [value]))).cost[0]);
    expect(ours).toEqual(sums);
  });

  it("lets the first level decide before all others", () => {
    const found = assign([
      [
        [0, 1000],
        [1, 0],
      ],
      [
        [0, 1000],
        [0, 0],
      ],
    ]);
    expect(found).toEqual({ kind: "complete", columnOfRow: [0, 1], cost: [0, 1000] });
  });

  it("takes the first list of columns among equals", () => {
    const zeros = Array.from({ length: 5 }, () => Array.from({ length: 8 }, () => [0]));
    expect(assign(zeros).columnOfRow).toEqual([0, 1, 2, 3, 4]);
  });

  it("names the rows that cannot be served and why", () => {
    const only = (...columns: number[]) =>
      Array.from({ length: 5 }, (_, column) => (columns.includes(column) ? [0] : undefined));
    const found = assign([only(0, 1), only(3, 4), only(0, 1), only(), only(0, 1)]);
    expect(found).toEqual({
      kind: "incomplete",
      columnOfRow: [0, 3, 1, undefined, undefined],
      cost: [0],
      unservedRows: [3, 4],
      shortages: [
        { rows: [3], columns: [] },
        { rows: [0, 2, 4], columns: [0, 1] },
      ],
    });
  });

  it("gives nothing for nothing", () => {
    expect(assign([])).toEqual({ kind: "complete", columnOfRow: [], cost: [] });
    expect(assign([[]])).toEqual({
      kind: "incomplete",
      columnOfRow: [undefined],
      cost: [],
      unservedRows: [0],
      shortages: [{ rows: [0], columns: [] }],
    });
  });

  it("refuses costs whose sums would not be exact", () => {
    expect(() => assign([[[0.5]]])).toThrow(RangeError);
    expect(() => assign([[[Number.NaN]]])).toThrow(RangeError);
    expect(() => assign([[[Number.MAX_SAFE_INTEGER]]])).toThrow(RangeError);
    expect(() => assign([[[1], [1, 2]]])).toThrow(RangeError);
  });

  it("permutes its answer with the rows and columns (law)", () => {
    const permuted = tables({ rows: [1, 8], columns: [1, 10] }, 5, true).chain((table) =>
      fc.record({
        table: fc.constant(table),
        rows: fc.shuffledSubarray([...table.keys()], { minLength: table.length }),
        columns: fc.shuffledSubarray([...table[0]!.keys()], { minLength: table[0]!.length }),
      }),
    );
    fc.assert(
      fc.property(permuted, ({ table, rows, columns }) => {
        // A last level of large random numbers makes the best assignment the only one.
        const random = seededRandom(table.length);
        const unique = table.map((line) =>
          line.map((tuple) => tuple && [...tuple, Math.floor(random() * 2 ** 40)]),
        );
        const before = assign(unique);
        const after = assign(rows.map((row) => columns.map((column) => unique[row]![column])));
        const moved = rows.map((row) => {
          const column = before.columnOfRow[row];
          return column === undefined ? undefined : columns.indexOf(column);
        });
        expect(after.cost).toEqual(before.cost);
        expect(after.columnOfRow).toEqual(moved);
      }),
      { numRuns: 200 },
    );
  });
});
