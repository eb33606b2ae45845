import type { ParameterGrid } from "./parameter-grid.ts";
import { fitSections } from "./section-fit.ts";
import { type ResponseAxis, type Section, sectionLevel } from "./section-response.ts";

/** A bank of peaking bands that differ only in gain. */
export interface FixedBands {
  readonly centersHz: readonly number[];
  readonly q: number;
  readonly gain: ParameterGrid;
}

/** Gains on the unit's steps, and what they leave. */
export interface GraphicFit {
  /** Indices into the gain grid, band by band. */
  readonly gains: readonly number[];
  /** Response minus curve, scaled. */
  readonly residual: Float64Array;
  readonly sumOfSquares: number;
  readonly iterations: number;
}

const FREE_FIT = { maxIterations: 12, relativeDecrease: 1e-7 };
/** Gains below this part are rounding errors. */
const LEAST_GAIN = 1e-9;
/** Far beyond what any curve has needed; a bound, not a stop. */
const MOST_MOVES = 400;

/**
 * The gains of fixed bands that come nearest to a curve: least squares over the whole grid, rounded, then moved by steps,
 * one band or two at a time, until no such move is better.
 *
 * @param base the scaled residual without these bands
 */
export function fitGraphic(axis: ResponseAxis, base: Float64Array, bands: FixedBands): GraphicFit {
  const { gain, centersHz, q } = bands;
  const limits: [number, number] = [gain.parameter(gain.first), gain.parameter(gain.last)];
  const flat = centersHz.map((centerHz): Section => {
    return { kind: "peaking", bySlope: false, lnF: Math.log(centerHz), gainDb: 0, lnShape: Math.log(q) };
  });
  const boxes = flat.map(({ lnF, lnShape }) => ({
    lnF: [lnF, lnF] as const,
    gainDb: limits,
    lnShape: [lnShape, lnShape] as const,
  }));
  const free = fitSections({ axis }, flat, boxes, base, FREE_FIT);
  const rounded = free.sections.map(({ gainDb }) => gain.nearest(gainDb));
  return { ...descended(axis, base, { flat, gain }, rounded), iterations: free.iterations };
}

interface Steps {
  readonly flat: readonly Section[];
  readonly gain: ParameterGrid;
}

/** One band moved by one step: the change of the residual that it makes. */
interface Move {
  readonly band: number;
  readonly index: number;
  readonly change: Float64Array;
  /** What the sum of squares gains or loses by this move alone. */
  readonly alone: number;
}

function descended(
  axis: ResponseAxis,
  base: Float64Array,
  { flat, gain }: Steps,
  start: readonly number[],
): Omit<GraphicFit, "iterations"> {
  const levels = new Map<string, Float64Array>();
  const levelAt = (band: number, index: number): Float64Array => {
    const key = `${band}:${index}`;
    const known = levels.get(key);
    if (known !== undefined) return known;
    const level = sectionLevel(axis, { ...flat[band]!, gainDb: gain.parameter(index) });
    levels.set(key, level);
    return level;
  };
  const gains = [...start];
  const residual = base.slice();
  gains.forEach((index, band) => {
    addTo(residual, levelAt(band, index));
  });
  let sum = dot(residual, residual);
  for (let moved = 0; moved < MOST_MOVES; moved++) {
    const moves = gains.flatMap((index, band) =>
      [index - 1, index + 1]
        .filter((next) => next >= gain.first && next <= gain.last)
        .map((next): Move => {
          const now = levelAt(band, index);
          const change = levelAt(band, next).map((level, i) => level - now[i]!);
          return { band, index: next, change, alone: dot(change, change) + 2 * dot(change, residual) };
        }),
    );
    const chosen = bestMoves(moves, -LEAST_GAIN * sum);
    if (chosen.length === 0) break;
    for (const { band, index, change } of chosen) {
      gains[band] = index;
      addTo(residual, change);
    }
    sum = dot(residual, residual);
  }
  return { gains, residual, sumOfSquares: sum };
}

/** The best single move or pair of moves: levels in dB add, so Δsum = aloneᵢ + aloneⱼ + 2·changeᵢ·changeⱼ. */
function bestMoves(moves: readonly Move[], limit: number): readonly Move[] {
  let least = limit;
  let chosen: readonly Move[] = [];
  for (const [i, first] of moves.entries()) {
    if (first.alone < least) {
      least = first.alone;
      chosen = [first];
    }
    for (let j = i + 1; j < moves.length; j++) {
      const second = moves[j]!;
      if (second.band === first.band) continue;
      const change = first.alone + second.alone + 2 * dot(first.change, second.change);
      if (change < least) {
        least = change;
        chosen = [first, second];
      }
    }
  }
  return chosen;
}

function addTo(sum: Float64Array, part: Float64Array): void {
  for (let i = 0; i < sum.length; i++) sum[i]! += part[i]!;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
