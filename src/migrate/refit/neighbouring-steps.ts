import { columnProducts, sumOfSquares } from "../../base/numeric/index.ts";
import { addInto, levelOf } from "./bank.ts";
import type { FitTask } from "./fit-task.ts";
import type { ParameterGrid } from "./parameter-grid.ts";
import { type SteppedBand, type SteppedBank, steppedBand } from "./stepped-bank.ts";

/** A difference that matters: fine grids are searched in jumps of about this size. */
const FREQUENCY_JUMP = Math.LN2 / 96;
const GAIN_JUMP_DB = 0.05;
const SHAPE_JUMP = 0.02;

/** Gains below this part are rounding errors. */
const LEAST_GAIN = 1e-9;

/** The settings of one band around the present one. */
interface Moves {
  readonly bands: readonly SteppedBand[];
  /** Level of each setting minus the present level, one column a setting. */
  readonly changes: Float64Array;
  /** What the sum of squares gains or loses by each setting alone. */
  readonly alone: Float64Array;
}

/**
 * The best of all settings in which up to three bands each keep or move their frequency, gain and shape by one step: up to
 * 27³ combinations, exactly, since levels in dB add: Δsum = Σ aloneᵢ + 2 Σ changeᵢ·changeⱼ.
 *
 * @param indices the bands, one to three
 * @returns undefined when no combination is better
 */
export function bestNeighbour(
  task: FitTask,
  bank: SteppedBank,
  indices: readonly number[],
): SteppedBank | undefined {
  const moves = indices.map((index) => movesOf(task, bank, bank.bands[index]!));
  const chosen = bestCombination(task.axis.rows, moves, -LEAST_GAIN * bank.sumOfSquares);
  if (chosen === undefined) return undefined;
  const bands = bank.bands.slice();
  const residual = bank.residual.slice();
  const { rows } = task.axis;
  indices.forEach((index, w) => {
    const { bands: settings, changes } = moves[w]!;
    bands[index] = settings[chosen[w]!]!;
    addInto(residual, changes.subarray(chosen[w]! * rows, (chosen[w]! + 1) * rows), 1);
  });
  const sum = sumOfSquares(residual);
  return sum < bank.sumOfSquares ? { bands, residual, sumOfSquares: sum } : undefined;
}

function bestCombination(
  rows: number,
  moves: readonly Moves[],
  limit: number,
): readonly number[] | undefined {
  const [first, second = NO_MOVE, third = NO_MOVE] = moves as readonly [Moves, Moves?, Moves?];
  const n1 = second.alone.length;
  const n2 = third.alone.length;
  const terms01 = crossTerms(first, second, rows);
  const terms02 = crossTerms(first, third, rows);
  const terms12 = crossTerms(second, third, rows);
  let least = limit;
  let chosen: readonly number[] | undefined;
  for (let x = 0; x < first.alone.length; x++) {
    for (let y = 0; y < n1; y++) {
      const soFar = first.alone[x]! + second.alone[y]! + terms01[x * n1 + y]!;
      for (let z = 0; z < n2; z++) {
        const change = soFar + third.alone[z]! + terms02[x * n2 + z]! + terms12[y * n2 + z]!;
        if (change < least) {
          least = change;
          chosen = [x, y, z];
        }
      }
    }
  }
  return chosen;
}

/** Stands for a band that is not there. */
const NO_MOVE: Moves = { bands: [], changes: new Float64Array(0), alone: new Float64Array(1) };

function movesOf(task: FitTask, { residual }: SteppedBank, band: SteppedBand): Moves {
  const { offered } = band;
  const { rows } = task.axis;
  const now = levelOf(task, band.section);
  const frequencies = around(offered.frequency, band.frequency, FREQUENCY_JUMP);
  const gains = around(offered.gain, band.gain, GAIN_JUMP_DB);
  const shapes = around(offered.shape, band.shape, SHAPE_JUMP);
  const bands = frequencies.flatMap((frequency) =>
    shapes.flatMap((shape) => gains.map((gain) => steppedBand(task, offered, frequency, gain, shape))),
  );
  const changes = new Float64Array(bands.length * rows);
  const alone = new Float64Array(bands.length);
  bands.forEach(({ section }, move) => {
    const level = levelOf(task, section);
    let sum = 0;
    for (let i = 0; i < rows; i++) {
      const change = level[i]! - now[i]!;
      changes[move * rows + i] = change;
      sum += change * (change + 2 * residual[i]!);
    }
    alone[move] = sum;
  });
  return { bands, changes, alone };
}

/** The index itself and those one jump away, as far as they may be used. */
function around(grid: ParameterGrid, index: number, jump: number): readonly number[] {
  const next = index < grid.last ? index + 1 : index - 1;
  if (next < grid.first) return [index];
  const step = Math.abs(grid.parameter(next) - grid.parameter(index));
  const stride = Math.max(1, Math.round(jump / step));
  return [index - stride, index, index + stride].filter((i) => i >= grid.first && i <= grid.last);
}

/** 2·change·change for every pair of moves, row by row. */
function crossTerms(a: Moves, b: Moves, rows: number): Float64Array {
  const terms = new Float64Array(a.alone.length * b.alone.length);
  if (a === NO_MOVE || b === NO_MOVE) return terms;
  columnProducts(a.changes, a.alone.length, b.changes, b.alone.length, rows, terms);
  for (let i = 0; i < terms.length; i++) terms[i]! *= 2;
  return terms;
}
