/** Which column each row takes, at which cost. */
export interface AssignmentProblem {
  readonly rows: number;
  readonly columns: number;
  /**
   * The cost of giving a column to a row: whole numbers, most important first, always equally many; undefined where the
   * pair is forbidden. Asked once a pair.
   */
  readonly cost: (row: number, column: number) => readonly number[] | undefined;
}

/** Every row has a column of its own. */
export interface CompleteAssignment {
  readonly kind: "complete";
  readonly columnOfRow: readonly number[];
  /** Sum of the costs, level by level. */
  readonly cost: readonly number[];
}

/** Not every row can have a column. As many have one as possible, and these at the least cost. */
export interface IncompleteAssignment {
  readonly kind: "incomplete";
  readonly columnOfRow: readonly (number | undefined)[];
  readonly cost: readonly number[];
  readonly unservedRows: readonly number[];
  /** Why: each names rows that fit on nothing but these columns, which are fewer. */
  readonly shortages: readonly Shortage[];
}

export interface Shortage {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
}

export type Assignment = CompleteAssignment | IncompleteAssignment;

/**
 * The assignment of columns to rows with the least cost: exact, in O(rows² · (rows + columns)). Costs are compared level
 * by level: the sums of the first level decide, then those of the second, and so on. Among equally cheap assignments
 * the one whose list of columns comes first in lexicographic order is taken (row 0 gets the lowest column it can have).
 *
 * Method: shortest augmenting paths with dual values (Kuhn 1955, Munkres 1957; in this form Jonker and Volgenant, Computing
 * 38, 1987). It needs sums, differences and an order only, so costs stay tuples and nothing is weighed together.
 *
 * @throws RangeError for costs that are not whole numbers, of changing length, or so large that sums would not be exact
 * @example
 * const cost = [[[4], [1]], [[2], [1]]];
 * leastCostAssignment({ rows: 2, columns: 2, cost: (r, c) => cost[r]![c] }); // columnOfRow [1, 0], cost [3]
 */
export function leastCostAssignment(problem: AssignmentProblem): Assignment {
  const table = readCosts(problem);
  const state = solve(table) ?? solve(withPrivateColumns(table))!;
  takeFirstOfEquals(state);
  const { rows, columns } = problem;
  const columnOfRow = Array.from(state.columnOfRow);
  const served = columnOfRow.map((column) => (column < columns ? column : undefined));
  const cost = sumOfCosts(table, served);
  if (served.every((column) => column !== undefined)) return { kind: "complete", columnOfRow, cost };
  const unservedRows = Array.from({ length: rows }, (_, row) => row).filter(
    (row) => served[row] === undefined,
  );
  const shortages = findShortages(table, served, unservedRows);
  return { kind: "incomplete", columnOfRow: served, cost, unservedRows, shortages };
}

/** Costs in one array, level by level for each pair, with a mask of the pairs that are allowed. */
interface CostTable {
  readonly rows: number;
  readonly columns: number;
  readonly levels: number;
  readonly values: Float64Array;
  readonly allowed: Uint8Array;
}

interface Solution {
  readonly table: CostTable;
  readonly columnOfRow: Int32Array;
  /** −1: free. */
  readonly rowOfColumn: Int32Array;
  /** Dual values, `levels` a row or column; those of free columns are 0, those of taken ones at most 0. */
  readonly rowDual: Float64Array;
  readonly columnDual: Float64Array;
}

const FREE = -1;

function readCosts({ rows, columns, cost }: AssignmentProblem): CostTable {
  const pairs: (readonly number[] | undefined)[] = [];
  let levels: number | undefined;
  let largest = 0;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const tuple = cost(row, column);
      pairs.push(tuple);
      if (tuple === undefined) continue;
      levels ??= tuple.length;
      if (tuple.length !== levels) {
        throw new RangeError(`The cost of (${row}, ${column}) has ${tuple.length} levels, not ${levels}.`);
      }
      for (const value of tuple) {
        if (!Number.isInteger(value)) throw new RangeError(`The cost of (${row}, ${column}) is ${value}.`);
        largest = Math.max(largest, Math.abs(value));
      }
    }
  }
  // A dual value is a sum of at most 2·rows costs; twice that appears in differences.
  if (largest * 4 * (rows + 1) > Number.MAX_SAFE_INTEGER) {
    throw new RangeError(`A cost of ${largest} is too large for exact sums over ${rows} rows.`);
  }
  const depth = levels ?? 0;
  const values = new Float64Array(pairs.length * depth);
  pairs.forEach((tuple, pair) => {
    if (tuple !== undefined) values.set(tuple, pair * depth);
  });
  return { rows, columns, levels: depth, values, allowed: Uint8Array.from(pairs, (p) => (p ? 1 : 0)) };
}

/** Gives each row a column of its own that costs more than everything else: it stays without a real one. */
function withPrivateColumns({ rows, columns, levels, values, allowed }: CostTable): CostTable {
  const wide = columns + rows;
  const deep = levels + 1;
  const table: CostTable = {
    rows,
    columns: wide,
    levels: deep,
    values: new Float64Array(rows * wide * deep),
    allowed: new Uint8Array(rows * wide),
  };
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const from = row * columns + column;
      const to = row * wide + column;
      table.allowed[to] = allowed[from]!;
      table.values.set(values.subarray(from * levels, (from + 1) * levels), to * deep + 1);
    }
    const own = row * wide + columns + row;
    table.allowed[own] = 1;
    table.values[own * deep] = 1;
  }
  return table;
}

/** Adds one row after another along the cheapest alternating path. Undefined when a row cannot be added. */
function solve(table: CostTable): Solution | undefined {
  const { rows, columns, levels } = table;
  const state: Solution = {
    table,
    columnOfRow: new Int32Array(rows).fill(FREE),
    rowOfColumn: new Int32Array(columns).fill(FREE),
    rowDual: new Float64Array(rows * levels),
    columnDual: new Float64Array(columns * levels),
  };
  for (let row = 0; row < rows; row++) {
    if (!addRow(state, row)) return undefined;
  }
  return state;
}

/** One round of Dijkstra over reduced costs from a row to the nearest free column. */
function addRow(state: Solution, newRow: number): boolean {
  const { table, columnOfRow, rowOfColumn, rowDual, columnDual } = state;
  const { columns, levels } = table;
  const distance = new Float64Array(columns * levels);
  const cameFrom = new Int32Array(columns).fill(FREE);
  const done = new Uint8Array(columns);
  const base = new Float64Array(levels);
  const reached: number[] = [];

  let row = newRow;
  let end = FREE;
  while (end === FREE) {
    let nearest = FREE;
    for (let column = 0; column < columns; column++) {
      if (done[column]) continue;
      const pair = row * columns + column;
      if (table.allowed[pair] && shortens(column, pair)) cameFrom[column] = row;
      if (cameFrom[column] === FREE) continue;
      if (nearest === FREE || compare(distance, column, distance, nearest, levels) < 0) nearest = column;
    }
    if (nearest === FREE) return false;
    done[nearest] = 1;
    base.set(distance.subarray(nearest * levels, (nearest + 1) * levels));
    if (rowOfColumn[nearest] === FREE) end = nearest;
    else {
      reached.push(nearest);
      row = rowOfColumn[nearest]!;
    }
  }

  // Keeps reduced costs at 0 on taken pairs and at least 0 elsewhere.
  for (let level = 0; level < levels; level++) {
    rowDual[newRow * levels + level]! += base[level]!;
    for (const column of reached) {
      const gap = base[level]! - distance[column * levels + level]!;
      rowDual[rowOfColumn[column]! * levels + level]! += gap;
      columnDual[column * levels + level]! -= gap;
    }
  }
  for (let column = end; column !== FREE; ) {
    const taker = cameFrom[column]!;
    const given = columnOfRow[taker]!;
    rowOfColumn[column] = taker;
    columnOfRow[taker] = column;
    column = taker === newRow ? FREE : given;
  }
  return true;

  /** Writes the distance of the column over the current row if that is shorter. */
  function shortens(column: number, pair: number): boolean {
    const known = cameFrom[column] !== FREE;
    let shorter = !known;
    for (let level = 0; level < levels; level++) {
      const length =
        base[level]! +
        table.values[pair * levels + level]! -
        rowDual[row * levels + level]! -
        columnDual[column * levels + level]!;
      const at = column * levels + level;
      if (!shorter) {
        if (length > distance[at]!) return false;
        shorter = length < distance[at]!;
      }
      distance[at] = length;
    }
    return shorter;
  }
}

/** Lexicographic order of two tuples that stand at an index each. */
function compare(a: Float64Array, indexA: number, b: Float64Array, indexB: number, levels: number): number {
  for (let level = 0; level < levels; level++) {
    const difference = a[indexA * levels + level]! - b[indexB * levels + level]!;
    if (difference !== 0) return difference;
  }
  return 0;
}

/**
 * Moves to the equally cheap assignment whose column list comes first. By complementary slackness the equally cheap ones are
 * those that use pairs of reduced cost 0 only and leave no column free whose dual value is not 0.
 */
function takeFirstOfEquals({ table, columnOfRow, rowOfColumn, rowDual, columnDual }: Solution): void {
  const { rows, columns, levels } = table;
  const isTight = (row: number, column: number): boolean => {
    const pair = row * columns + column;
    if (!table.allowed[pair]) return false;
    for (let level = 0; level < levels; level++) {
      const rest =
        table.values[pair * levels + level]! -
        rowDual[row * levels + level]! -
        columnDual[column * levels + level]!;
      if (rest !== 0) return false;
    }
    return true;
  };
  const mayBeFree = (column: number): boolean =>
    columnDual.subarray(column * levels, (column + 1) * levels).every((value) => value === 0);

  for (let fixed = 0; fixed < rows; fixed++) {
    const own = columnOfRow[fixed]!;
    for (let column = 0; column < own; column++) {
      if (!isTight(fixed, column)) continue;
      const seen = new Uint8Array(columns);
      seen[column] = 1;
      const holder = rowOfColumn[column]!;
      if ((holder !== FREE && holder < fixed) || !findsOther(holder, seen)) continue;
      columnOfRow[fixed] = column;
      rowOfColumn[column] = fixed;
      break;
    }

    /**
     * Leads a displaced holder along tight pairs to the column that was given up. Freedom counts as a holder that goes
     * wherever a column may be free.
     */
    function findsOther(holder: number, seen: Uint8Array): boolean {
      for (let column = 0; column < columns; column++) {
        if (seen[column] || !(holder === FREE ? mayBeFree(column) : isTight(holder, column))) continue;
        const next = rowOfColumn[column]!;
        if (next === FREE && holder === FREE) continue;
        seen[column] = 1;
        const open = column === own || ((next === FREE || next > fixed) && findsOther(next, seen));
        if (!open) continue;
        if (holder !== FREE) columnOfRow[holder] = column;
        rowOfColumn[column] = holder;
        return true;
      }
      return false;
    }
  }
}

function sumOfCosts(
  { columns, levels, values }: CostTable,
  columnOfRow: readonly (number | undefined)[],
): readonly number[] {
  const sum = new Array<number>(levels).fill(0);
  columnOfRow.forEach((column, row) => {
    if (column === undefined) return;
    for (let level = 0; level < levels; level++)
      sum[level]! += values[(row * columns + column) * levels + level]!;
  });
  return sum;
}

/** Hall's condition: everything an unserved row could take is held by rows that in turn could take nothing else. */
function findShortages(
  { columns, allowed }: CostTable,
  columnOfRow: readonly (number | undefined)[],
  unservedRows: readonly number[],
): readonly Shortage[] {
  const rowOfColumn = new Map(columnOfRow.map((column, row) => [column, row]));
  const told = new Set<number>();
  const shortages: Shortage[] = [];
  for (const start of unservedRows) {
    if (told.has(start)) continue;
    const reachedRows = new Set([start]);
    const reachedColumns = new Set<number>();
    for (const row of reachedRows) {
      for (let column = 0; column < columns; column++) {
        if (!allowed[row * columns + column] || reachedColumns.has(column)) continue;
        reachedColumns.add(column);
        reachedRows.add(rowOfColumn.get(column)!);
      }
    }
    // Another unserved row that competes for nothing but these columns belongs to the same shortage.
    for (const row of unservedRows) {
      const wanted = [...allowed.subarray(row * columns, (row + 1) * columns).keys()].filter(
        (column) => allowed[row * columns + column],
      );
      if (wanted.length > 0 && wanted.every((column) => reachedColumns.has(column))) reachedRows.add(row);
    }
    for (const row of reachedRows) told.add(row);
    shortages.push({ rows: ascending(reachedRows), columns: ascending(reachedColumns) });
  }
  return shortages;
}

function ascending(values: Iterable<number>): readonly number[] {
  return [...values].sort((a, b) => a - b);
}
