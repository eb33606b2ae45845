/**
 * Positions of a longest strictly rising subsequence, in order. Source: patience sorting (C. Schensted, Longest
 * increasing and decreasing subsequences, 1961); O(n log n).
 *
 * @example
 * longestRisingRun([3, 0, 1, 2]); // [1, 2, 3]
 */
export function longestRisingRun(values: readonly number[]): readonly number[] {
  /** Position of the smallest value that ends a run of each length. */
  const ends: number[] = [];
  const previous: number[] = [];
  for (const [index, value] of values.entries()) {
    let low = 0;
    for (let high = ends.length; low < high; ) {
      const middle = (low + high) >> 1;
      if (values[ends[middle]!]! < value) low = middle + 1;
      else high = middle;
    }
    previous[index] = low === 0 ? -1 : ends[low - 1]!;
    ends[low] = index;
  }
  const run: number[] = [];
  for (let index = ends.at(-1) ?? -1; index >= 0; index = previous[index]!) run.push(index);
  return run.reverse();
}
