import { choleskyFactor, choleskySolve } from "./cholesky.ts";
import { gramMatrix, transposedTimes } from "./gram-matrix.ts";

/** A residual vector that depends smoothly on parameters, with its exact derivatives. */
export interface LeastSquaresModel {
  readonly rows: number;
  readonly parameters: number;
  /** Writes the residual r(p), `rows` values. */
  residual(p: Float64Array, out: Float64Array): void;
  /**
   * Writes ∂r/∂p column-major: parameter j at j·rows. Always asked at the point of the last `residual` call that
   * lowered the sum, so a model may keep what it computed there.
   */
  jacobian(p: Float64Array, columns: Float64Array): void;
  /**
   * Where given, writes for each parameter the rows outside of which its column is nearly zero, after a call of `jacobian`: the
   * first row at 2j, one past the last at 2j + 1. They shorten the normal equations; the gradient is always whole, so the
   * least point stays what it is.
   */
  spans?(p: Float64Array, out: Int32Array): void;
}

/** Limits of a bounded fit. `lower[j] === upper[j]` holds a parameter. */
export interface LeastSquaresLimits {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Largest change of a parameter in one iteration. */
  readonly maxStep: Float64Array;
}

export interface LeastSquaresBudget {
  readonly maxIterations: number;
  /** Stop when an iteration lowers the sum of squares by less than this part of it. */
  readonly relativeDecrease: number;
}

export interface LeastSquaresResult {
  readonly sumOfSquares: number;
  readonly iterations: number;
}

/** What a fit of so many parameters, or fewer, computes in. May be used again and again, by one fit at a time. */
export interface LeastSquaresWorkspace {
  readonly columns: Float64Array;
  readonly gram: Float64Array;
  readonly damped: Float64Array;
  readonly gradient: Float64Array;
  readonly step: Float64Array;
  readonly trial: Float64Array;
  readonly trialResidual: Float64Array;
  readonly spans: Int32Array;
}

export function leastSquaresWorkspace(rows: number, parameters: number): LeastSquaresWorkspace {
  return {
    columns: new Float64Array(parameters * rows),
    gram: new Float64Array(parameters * parameters),
    damped: new Float64Array(parameters * parameters),
    gradient: new Float64Array(parameters),
    step: new Float64Array(parameters),
    trial: new Float64Array(parameters),
    trialResidual: new Float64Array(rows),
    spans: new Int32Array(2 * parameters),
  };
}

const FIRST_DAMPING = 1e-3;
const LEAST_DAMPING = 1e-9;
const MOST_ATTEMPTS = 6;

/**
 * Levenberg-Marquardt with bounds: normal equations, damping scaled by the diagonal (Marquardt, SIAM J. 11, 1963) and set
 * by how much of the predicted decrease came true, steps clipped, parameters at a limit held while the gradient points
 * outwards. Deterministic: ends by iterations or by progress, never by time.
 *
 * @param p the start, clipped into the limits, and the result
 * @param residual gets the residual at the result, `model.rows` values
 */
export function boundedLeastSquares(
  model: LeastSquaresModel,
  p: Float64Array,
  residual: Float64Array,
  limits: LeastSquaresLimits,
  budget: LeastSquaresBudget,
  workspace: LeastSquaresWorkspace = leastSquaresWorkspace(model.rows, model.parameters),
): LeastSquaresResult {
  const { rows, parameters } = model;
  const { columns, gram, damped, gradient, step, trialResidual, spans } = workspace;
  const trial = workspace.trial.subarray(0, parameters);

  for (let j = 0; j < parameters; j++) p[j] = clamp(p[j]!, limits.lower[j]!, limits.upper[j]!);
  model.residual(p, residual);
  let sum = sumOfSquares(residual);
  let damping = FIRST_DAMPING;
  let iterations = 0;
  while (iterations < budget.maxIterations && sum > 0) {
    iterations++;
    model.jacobian(p, columns);
    const free = freeParameters(columns, rows, p, residual, limits, gradient);
    const n = free.length;
    if (n === 0) break;
    model.spans?.(p, spans);
    gramMatrix(columns, rows, free, gram, model.spans === undefined ? undefined : spans);

    let accepted = false;
    const before = sum;
    for (let attempt = 0; attempt < MOST_ATTEMPTS && !accepted; attempt++) {
      damped.set(gram.subarray(0, n * n));
      for (let a = 0; a < n; a++) {
        const d = a * n + a;
        damped[d] = damped[d]! * (1 + damping) + 1e-12;
        step[a] = -gradient[a]!;
      }
      if (choleskyFactor(damped, n)) {
        choleskySolve(damped, n, step);
        trial.set(p);
        for (let a = 0; a < n; a++) {
          const j = free[a]!;
          const most = limits.maxStep[j]!;
          trial[j] = clamp(p[j]! + clamp(step[a]!, -most, most), limits.lower[j]!, limits.upper[j]!);
        }
        model.residual(trial, trialResidual);
        const trialSum = sumOfSquares(trialResidual);
        accepted = trialSum < sum;
        if (accepted) {
          const predicted = predictedDecrease(gram, gradient, step, n, damping);
          damping = nextDamping(damping, (sum - trialSum) / predicted);
          sum = trialSum;
          p.set(trial);
          residual.set(trialResidual);
        }
      }
      if (!accepted) damping *= 5;
    }
    if (!accepted || before - sum < budget.relativeDecrease * before) break;
  }
  return { sumOfSquares: sum, iterations };
}

/** By how much the quadratic model says that the sum of squares falls in a step that solves (G + λD)·step = −gradient. */
function predictedDecrease(
  gram: Float64Array,
  gradient: Float64Array,
  step: Float64Array,
  n: number,
  damping: number,
): number {
  let sum = 0;
  for (let a = 0; a < n; a++) sum += step[a]! * (damping * gram[a * n + a]! * step[a]! - gradient[a]!);
  return sum;
}

/** A step that keeps its promise earns longer ones; one that does not, shorter ones. Between, nothing changes. */
function nextDamping(damping: number, partThatCameTrue: number): number {
  if (partThatCameTrue > 0.8) return Math.max(damping / 4, LEAST_DAMPING);
  return partThatCameTrue < 0.3 ? damping * 3 : damping;
}

/** The parameters that may move, with their gradient packed in the same order into `gradient`. */
function freeParameters(
  columns: Float64Array,
  rows: number,
  p: Float64Array,
  residual: Float64Array,
  limits: LeastSquaresLimits,
  gradient: Float64Array,
): number[] {
  const all: number[] = [];
  for (let j = 0; j < p.length; j++) if (limits.lower[j]! < limits.upper[j]!) all.push(j);
  transposedTimes(columns, rows, all, residual, gradient);
  const free: number[] = [];
  for (let a = 0; a < all.length; a++) {
    const j = all[a]!;
    const slope = gradient[a]!;
    const held = slope === 0 || (slope > 0 ? p[j]! <= limits.lower[j]! : p[j]! >= limits.upper[j]!);
    if (held) continue;
    gradient[free.length] = slope;
    free.push(j);
  }
  return free;
}

/** Σ v². */
export function sumOfSquares(vector: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < vector.length; i++) sum += vector[i]! * vector[i]!;
  return sum;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
