/**
 * The value that lies nearest to all values together (least sum of distances: a median). Between two middle values, all
 * serve; the one nearest to 0 is taken. No values give 0.
 *
 * Few paths that moved do not move it, so they stand out against the many that did not.
 */
export function centralValue(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = values.toSorted((a, b) => a - b);
  const lower = sorted[(sorted.length - 1) >> 1]!;
  const upper = sorted[sorted.length >> 1]!;
  if (lower <= 0 && upper >= 0) return 0;
  return Math.abs(lower) < Math.abs(upper) ? lower : upper;
}
