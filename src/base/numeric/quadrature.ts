/** Gregory's end corrections of third order: the weights of the first points of an evenly spaced rule, in steps. */
const END_WEIGHTS = [3 / 8, 7 / 6, 23 / 24] as const;

/**
 * Weights wₖ with which ∫y dx ≈ Σ wₖ·y(xₖ) from the first to the last point: the trapezoidal rule, on evenly spaced
 * points with Gregory's end corrections (error of fourth order in the step). One point has weight 0.
 *
 * @param x increasing.
 */
export function integrationWeights(x: ArrayLike<number>): Float64Array {
  const n = x.length;
  const weights = new Float64Array(n);
  for (let k = 1; k < n; k++) {
    const half = (x[k]! - x[k - 1]!) / 2;
    weights[k - 1] = weights[k - 1]! + half;
    weights[k] = weights[k]! + half;
  }
  if (n >= 2 * END_WEIGHTS.length && isEven(x)) {
    const step = (x[n - 1]! - x[0]!) / (n - 1);
    END_WEIGHTS.forEach((weight, k) => {
      weights[k] = weight * step;
      weights[n - 1 - k] = weight * step;
    });
  }
  return weights;
}

function isEven(x: ArrayLike<number>): boolean {
  const step = (x[x.length - 1]! - x[0]!) / (x.length - 1);
  for (let k = 1; k < x.length; k++) {
    if (Math.abs(x[k]! - x[k - 1]! - step) > 1e-6 * step) return false;
  }
  return true;
}

/**
 * The mean of a function given at points, straight lines between them, over part of their range.
 *
 * @param x increasing.
 * @returns undefined when [from, to] and the points' range have no stretch in common.
 */
export function meanBetween(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  from: number,
  to: number,
): number | undefined {
  let integral = 0;
  let length = 0;
  for (let k = 1; k < x.length; k++) {
    const x0 = x[k - 1]!;
    const x1 = x[k]!;
    const start = Math.max(from, x0);
    const end = Math.min(to, x1);
    if (end <= start) continue;
    const middle = ((start + end) / 2 - x0) / (x1 - x0);
    integral += (end - start) * (y[k - 1]! + middle * (y[k]! - y[k - 1]!));
    length += end - start;
  }
  return length > 0 ? integral / length : undefined;
}
