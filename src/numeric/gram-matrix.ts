/**
 * The products of columns with each other and with a vector: JᵀJ (lower triangle) and Jᵀr, for normal equations.
 * Works in blocks of two by two columns, which halves the reads; this is the hottest loop of a refit.
 *
 * @param columns column-major values, column c at c·rows
 * @param chosen the columns that take part, in this order
 * @param gram gets JᵀJ row by row with row length `chosen.length`, lower triangle (upper may hold rubbish)
 */
export function gramMatrix(
  columns: Float64Array,
  rows: number,
  chosen: readonly number[],
  gram: Float64Array,
): void {
  const n = chosen.length;
  for (let a = 0; a < n; a += 2) {
    const x0 = chosen[a]! * rows;
    const pairedRow = a + 1 < n;
    const x1 = pairedRow ? chosen[a + 1]! * rows : x0;
    for (let b = 0; b <= a; b += 2) {
      const y0 = chosen[b]! * rows;
      const y1 = b + 1 < n ? chosen[b + 1]! * rows : y0;
      let s00 = 0;
      let s01 = 0;
      let s10 = 0;
      let s11 = 0;
      for (let i = 0; i < rows; i++) {
        const u = columns[x0 + i]!;
        const v = columns[x1 + i]!;
        const p = columns[y0 + i]!;
        const q = columns[y1 + i]!;
        s00 += u * p;
        s01 += u * q;
        s10 += v * p;
        s11 += v * q;
      }
      gram[a * n + b] = s00;
      if (b + 1 < n) gram[a * n + b + 1] = s01;
      if (pairedRow) {
        gram[(a + 1) * n + b] = s10;
        if (b + 1 < n) gram[(a + 1) * n + b + 1] = s11;
      }
    }
  }
}

/** Jᵀr for the chosen columns, in their order. */
export function transposedTimes(
  columns: Float64Array,
  rows: number,
  chosen: readonly number[],
  vector: Float64Array,
  out: Float64Array,
): void {
  for (let a = 0; a < chosen.length; a++) {
    const x = chosen[a]! * rows;
    let sum = 0;
    for (let i = 0; i < rows; i++) sum += columns[x + i]! * vector[i]!;
    out[a] = sum;
  }
}
