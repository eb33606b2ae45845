/**
 * The middle value; the mean of the two middle ones for an even number of values; NaN for none.
 *
 * @example
 * median([3, 1, 2, 10]); // 2.5
 */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Median of the absolute deviations from the median, not scaled; in the unit of the values; NaN for none. */
export function medianAbsoluteDeviation(values: readonly number[]): number {
  const center = median(values);
  return median(values.map((value) => Math.abs(value - center)));
}

/**
 * How far out each value lies: 0.6745 (x − median) / MAD; where more than half of the values are equal, so that the MAD is
 * zero, (x − median) / (1.2533 times the mean absolute deviation); 0 where all are equal.
 *
 * Source: B. Iglewicz, D. C. Hoaglin, How to Detect and Handle Outliers (ASQC Basic References in Quality Control 16,
 * 1993), by way of NIST/SEMATECH e-Handbook 1.3.5.17 (from memory); the second form: common practice, no source.
 */
export function modifiedZScores(values: readonly number[]): readonly number[] {
  const center = median(values);
  const mad = medianAbsoluteDeviation(values);
  if (mad > 0) return values.map((value) => (0.6745 * (value - center)) / mad);
  const mean = values.reduce((sum, value) => sum + Math.abs(value - center), 0) / values.length;
  return values.map((value) => (mean === 0 ? 0 : (value - center) / (1.253314 * mean)));
}

/** Beyond this a value counts as an outlier. Source: as {@link modifiedZScores}. */
export const OUTLIER_SCORE = 3.5;
