import type { ParameterGrid } from "./parameter-grid.ts";

/** A variable to be put on a step. */
export interface BeamVariable {
  readonly grid: ParameterGrid;
  /** The parameter from which deviations count. */
  readonly at: number;
  /** Steps smaller than this offer no choice: the nearest is taken. */
  readonly fineStep: number;
  /** The largest deviation aimed at. */
  readonly farthest: number;
}

/**
 * Steps with a small (δ − center)ᵀ·L·Lᵀ·(δ − center), δ being the deviations of the variables. The variables are decided one
 * after the other from the last to the first; a choice costs what all that is still free cannot repair (nearest plane:
 * Babai, Combinatorica 6, 1986), and the cheapest `beam` partial choices are followed (Anderson and Mohan, IEEE
 * Trans. Commun. 32, 1984; both cited from memory).
 *
 * @param factor L, row by row
 * @returns indices into the grids, variable by variable; the cheapest choice first
 */
export function beamSearch(
  variables: readonly BeamVariable[],
  factor: Float64Array,
  center: Float64Array,
  beam: number,
): readonly Int32Array[] {
  const n = variables.length;
  let now = new Choices(beam, n);
  let next = new Choices(beam, n);
  now.count = 1;
  const trials = new CheapestTrials(beam);
  for (let v = n - 1; v >= 0; v--) {
    const { grid, at, fineStep, farthest } = variables[v]!;
    const diagonal = factor[v * n + v]!;
    trials.count = 0;
    for (let c = 0; c < now.count; c++) {
      let coupled = 0;
      for (let j = v + 1; j < n; j++) coupled += factor[j * n + v]! * now.deviations[c * n + j]!;
      const wanted = center[v]! - coupled / diagonal;
      const nearest = grid.nearest(at + Math.min(Math.max(wanted, -farthest), farthest));
      const cost = now.costs[c]!;
      trials.add(c, nearest, cost + (diagonal * (grid.parameter(nearest) - at - wanted)) ** 2);
      for (let index = nearest - 1; index <= nearest + 1; index += 2) {
        if (index < grid.first || index > grid.last) continue;
        const parameter = grid.parameter(index);
        if (Math.abs(parameter - grid.parameter(nearest)) < fineStep) continue;
        trials.add(c, index, cost + (diagonal * (parameter - at - wanted)) ** 2);
      }
    }
    for (let slot = 0; slot < trials.count; slot++) {
      const index = trials.indices[slot]!;
      next.extend(slot, now, trials.from[slot]!, v);
      next.indices[slot * n + v] = index;
      next.deviations[slot * n + v] = grid.parameter(index) - at - center[v]!;
      next.costs[slot] = trials.costs[slot]!;
    }
    next.count = trials.count;
    [now, next] = [next, now];
  }
  return Array.from({ length: now.count }, (_, c) => now.indices.slice(c * n, (c + 1) * n));
}

/** Partial choices, slot by slot: the variables from some one on are decided. */
class Choices {
  count = 0;
  readonly costs: Float64Array;
  /** Deviation minus center. */
  readonly deviations: Float64Array;
  readonly indices: Int32Array;
  readonly #variables: number;

  constructor(slots: number, variables: number) {
    this.costs = new Float64Array(slots);
    this.deviations = new Float64Array(slots * variables);
    this.indices = new Int32Array(slots * variables);
    this.#variables = variables;
  }

  /** Takes over a choice in which the variables after `v` are decided. */
  extend(slot: number, from: Choices, fromSlot: number, v: number): void {
    const n = this.#variables;
    for (let j = v + 1; j < n; j++) {
      this.deviations[slot * n + j] = from.deviations[fromSlot * n + j]!;
      this.indices[slot * n + j] = from.indices[fromSlot * n + j]!;
    }
  }
}

/** The cheapest ways to go on from all partial choices, cheapest first. */
class CheapestTrials {
  count = 0;
  readonly from: Int32Array;
  readonly indices: Int32Array;
  readonly costs: Float64Array;

  constructor(most: number) {
    this.from = new Int32Array(most);
    this.indices = new Int32Array(most);
    this.costs = new Float64Array(most);
  }

  add(from: number, index: number, cost: number): void {
    const most = this.costs.length;
    if (this.count === most && cost >= this.costs[most - 1]!) return;
    let slot = Math.min(this.count, most - 1);
    for (; slot > 0 && cost < this.costs[slot - 1]!; slot--) {
      this.from[slot] = this.from[slot - 1]!;
      this.indices[slot] = this.indices[slot - 1]!;
      this.costs[slot] = this.costs[slot - 1]!;
    }
    this.from[slot] = from;
    this.indices[slot] = index;
    this.costs[slot] = cost;
    if (this.count < most) this.count++;
  }
}
