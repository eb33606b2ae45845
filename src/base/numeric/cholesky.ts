/**
 * Factors a symmetric positive definite matrix in place: A = L·Lᵀ. Only the lower triangle is read and written.
 *
 * @param a matrix of order n, row by row with row length `stride`
 * @returns false when the matrix is not positive definite to working precision; `a` is then spoilt
 */
export function choleskyFactor(a: Float64Array, n: number, stride: number = n): boolean {
  // Zeros before the first value of a row stay zeros (envelope method: Jennings, Comput. J. 9, 1966).
  const firsts = new Int32Array(n);
  for (let row = 0; row < n; row++) {
    const r = row * stride;
    let first = 0;
    while (first < row && a[r + first] === 0) first++;
    firsts[row] = first;
    for (let column = first; column < row; column++) {
      const c = column * stride;
      const from = Math.max(first, firsts[column]!);
      a[r + column] = (a[r + column]! - dot(a, r + from, c + from, column - from)) / a[c + column]!;
    }
    const diagonal = a[r + row]!;
    const rest = diagonal - dot(a, r + first, r + first, row - first);
    if (!(rest > diagonal * 1e-15)) return false;
    a[r + row] = Math.sqrt(rest);
  }
  return true;
}

/** Σ aₓ₊ₖ·a_y₊ₖ over `count` values, in four sums that do not wait for each other. */
function dot(a: Float64Array, x: number, y: number, count: number): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let k = 0;
  for (; k + 3 < count; k += 4) {
    s0 += a[x + k]! * a[y + k]!;
    s1 += a[x + k + 1]! * a[y + k + 1]!;
    s2 += a[x + k + 2]! * a[y + k + 2]!;
    s3 += a[x + k + 3]! * a[y + k + 3]!;
  }
  for (; k < count; k++) s0 += a[x + k]! * a[y + k]!;
  return s0 + s1 + (s2 + s3);
}

/** Solves L·Lᵀ·x = b in place in `b`, with the factor of {@link choleskyFactor}. */
export function choleskySolve(l: Float64Array, n: number, b: Float64Array, stride: number = n): void {
  for (let row = 0; row < n; row++) {
    let sum = b[row]!;
    for (let k = 0; k < row; k++) sum -= l[row * stride + k]! * b[k]!;
    b[row] = sum / l[row * stride + row]!;
  }
  for (let row = n - 1; row >= 0; row--) {
    let sum = b[row]!;
    for (let k = row + 1; k < n; k++) sum -= l[k * stride + row]! * b[k]!;
    b[row] = sum / l[row * stride + row]!;
  }
}
