/**
 * Factors a symmetric positive definite matrix in place: A = L·Lᵀ. Only the lower triangle is read and written.
 *
 * @param a matrix of order n, row by row with row length `stride`
 * @returns false when the matrix is not positive definite to working precision; `a` is then spoilt
 */
export function choleskyFactor(a: Float64Array, n: number, stride: number = n): boolean {
  for (let row = 0; row < n; row++) {
    const r = row * stride;
    for (let column = 0; column < row; column++) {
      const c = column * stride;
      let sum = a[r + column]!;
      for (let k = 0; k < column; k++) sum -= a[r + k]! * a[c + k]!;
      a[r + column] = sum / a[c + column]!;
    }
    const diagonal = a[r + row]!;
    let rest = diagonal;
    for (let k = 0; k < row; k++) rest -= a[r + k]! * a[r + k]!;
    if (!(rest > diagonal * 1e-15)) return false;
    a[r + row] = Math.sqrt(rest);
  }
  return true;
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
