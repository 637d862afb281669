import { valueAt } from '../../units/value-at.ts';
/**
 * Lower triangular root L of a covariance matrix K = L Lᵀ, row by row (Cholesky).
 *
 * A row that adds nothing new to the rows above it (a height taken from another place, a place named twice) gets zeros on
 * its diagonal instead of a failure; rounding may leave it a little below zero.
 */
export function lowerTriangle(matrix: Float64Array, n: number): Float64Array {
  const root = new Float64Array(n * n);
  const at = (i: number, j: number) => valueAt(root, i * n + j);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = valueAt(matrix, i * n + j);
      for (let k = 0; k < j; k++) sum -= at(i, k) * at(j, k);
      if (i === j) root[i * n + i] = Math.sqrt(Math.max(0, sum));
      else root[i * n + j] = at(j, j) > SMALLEST ? sum / at(j, j) : 0;
    }
  }
  return root;
}

/** A diagonal entry below this, m, is rounding. */
const SMALLEST = 1e-9;
