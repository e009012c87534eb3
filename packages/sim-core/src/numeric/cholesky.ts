/** The lower triangle L of a symmetric matrix of `n` rows, L Lᵀ; undefined if it is not positive definite. */
export function cholesky(matrix: Float64Array, n: number): Float64Array | undefined {
  const low = matrix.slice();
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let rest = low[i * n + j];
      for (let k = 0; k < j; k++) rest -= low[i * n + k] * low[j * n + k];
      if (i === j && !(rest > 0)) return undefined;
      low[i * n + j] = i === j ? Math.sqrt(rest) : rest / low[j * n + j];
    }
  }
  return low;
}

/** Solves L x = b in place. */
export function forwards(low: Float64Array, b: Float64Array): void {
  const n = b.length;
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) b[i] -= low[i * n + k] * b[k];
    b[i] /= low[i * n + i];
  }
}

/** Solves Lᵀ x = b in place. */
export function backwards(low: Float64Array, b: Float64Array): void {
  const n = b.length;
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) b[i] -= low[k * n + i] * b[k];
    b[i] /= low[i * n + i];
  }
}
