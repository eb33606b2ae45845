/**
 * The products of columns with each other and with a vector: JᵀJ (lower triangle) and Jᵀr, for normal equations.
 * Works in blocks of three by three columns, which reads a third of what single products would; this is the hottest
 * loop of a refit.
 *
 * @param columns column-major values, column c at c·rows
 * @param chosen the columns that take part, in this order
 * @param spans where given, the rows outside of a column's span (first row at 2c, one past the last at 2c + 1) count as
 *   nearly zero and are left out where the whole block may leave them out; the result is the Gram matrix of columns cut off
 *   there, so it stays positive semidefinite
 * @param gram gets JᵀJ row by row with row length `chosen.length`, lower triangle (upper may hold rubbish)
 */
export function gramMatrix(
  columns: Float64Array,
  rows: number,
  chosen: readonly number[],
  gram: Float64Array,
  spans?: Int32Array,
): void {
  const n = chosen.length;
  const last = n - 1;
  const [starts, ends] = blockSpans(chosen, rows, spans);
  for (let a = 0; a < n; a += 3) {
    // Past the end the last column is done again.
    const a1 = Math.min(a + 1, last);
    const a2 = Math.min(a + 2, last);
    const x0 = chosen[a]! * rows;
    const x1 = chosen[a1]! * rows;
    const x2 = chosen[a2]! * rows;
    for (let b = 0; b <= a; b += 3) {
      const b1 = Math.min(b + 1, last);
      const b2 = Math.min(b + 2, last);
      const y0 = chosen[b]! * rows;
      const y1 = chosen[b1]! * rows;
      const y2 = chosen[b2]! * rows;
      let s00 = 0;
      let s01 = 0;
      let s02 = 0;
      let s10 = 0;
      let s11 = 0;
      let s12 = 0;
      let s20 = 0;
      let s21 = 0;
      let s22 = 0;
      const from = Math.max(starts[a / 3]!, starts[b / 3]!);
      const to = Math.min(ends[a / 3]!, ends[b / 3]!);
      for (let i = from; i < to; i++) {
        const u = columns[x0 + i]!;
        const v = columns[x1 + i]!;
        const w = columns[x2 + i]!;
        const p = columns[y0 + i]!;
        const q = columns[y1 + i]!;
        const r = columns[y2 + i]!;
        s00 += u * p;
        s01 += u * q;
        s02 += u * r;
        s10 += v * p;
        s11 += v * q;
        s12 += v * r;
        s20 += w * p;
        s21 += w * q;
        s22 += w * r;
      }
      gram[a * n + b] = s00;
      gram[a * n + b1] = s01;
      gram[a * n + b2] = s02;
      gram[a1 * n + b] = s10;
      gram[a1 * n + b1] = s11;
      gram[a1 * n + b2] = s12;
      gram[a2 * n + b] = s20;
      gram[a2 * n + b1] = s21;
      gram[a2 * n + b2] = s22;
    }
  }
}

/** First row and one past the last row of each block of three columns. */
function blockSpans(
  chosen: readonly number[],
  rows: number,
  spans: Int32Array | undefined,
): readonly [starts: readonly number[], ends: readonly number[]] {
  const starts: number[] = [];
  const ends: number[] = [];
  for (let a = 0; a < chosen.length; a += 3) {
    let start = spans === undefined ? 0 : rows;
    let end = spans === undefined ? rows : 0;
    if (spans !== undefined) {
      for (const column of chosen.slice(a, a + 3)) {
        start = Math.min(start, spans[2 * column]!);
        end = Math.max(end, spans[2 * column + 1]!);
      }
    }
    starts.push(start);
    ends.push(end);
  }
  return [starts, ends];
}

/** Jᵀr for the chosen columns, in their order. */
export function transposedTimes(
  columns: Float64Array,
  rows: number,
  chosen: readonly number[],
  vector: Float64Array,
  out: Float64Array,
): void {
  const last = chosen.length - 1;
  for (let a = 0; a <= last; a += 4) {
    // Four columns at a time; past the end the last one is done again.
    const x0 = chosen[a]! * rows;
    const x1 = chosen[Math.min(a + 1, last)]! * rows;
    const x2 = chosen[Math.min(a + 2, last)]! * rows;
    const x3 = chosen[Math.min(a + 3, last)]! * rows;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let i = 0; i < rows; i++) {
      const v = vector[i]!;
      s0 += columns[x0 + i]! * v;
      s1 += columns[x1 + i]! * v;
      s2 += columns[x2 + i]! * v;
      s3 += columns[x3 + i]! * v;
    }
    out[a] = s0;
    if (a + 1 <= last) out[a + 1] = s1;
    if (a + 2 <= last) out[a + 2] = s2;
    if (a + 3 <= last) out[a + 3] = s3;
  }
}

/**
 * The products of the columns of one matrix with those of another: AᵀB, row by row, in blocks of two by two columns.
 *
 * @param a column-major values, column c at c·rows; likewise b
 * @param product gets countA rows of countB values
 */
export function columnProducts(
  a: Float64Array,
  countA: number,
  b: Float64Array,
  countB: number,
  rows: number,
  product: Float64Array,
): void {
  for (let x = 0; x < countA; x += 2) {
    const x0 = x * rows;
    const x1 = Math.min(x + 1, countA - 1) * rows;
    for (let y = 0; y < countB; y += 2) {
      const y0 = y * rows;
      const y1 = Math.min(y + 1, countB - 1) * rows;
      let s00 = 0;
      let s01 = 0;
      let s10 = 0;
      let s11 = 0;
      for (let i = 0; i < rows; i++) {
        const u = a[x0 + i]!;
        const v = a[x1 + i]!;
        const p = b[y0 + i]!;
        const q = b[y1 + i]!;
        s00 += u * p;
        s01 += u * q;
        s10 += v * p;
        s11 += v * q;
      }
      product[x * countB + y] = s00;
      if (y + 1 < countB) product[x * countB + y + 1] = s01;
      if (x + 1 < countA) {
        product[(x + 1) * countB + y] = s10;
        if (y + 1 < countB) product[(x + 1) * countB + y + 1] = s11;
      }
    }
  }
}
