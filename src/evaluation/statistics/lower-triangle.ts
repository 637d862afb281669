import { valueAt } from '../../units/value-at.ts';

/**
 * Lower triangular root L of a covariance matrix K = L Lᵀ, row by row (Cholesky).
 *
 * A row that adds nothing new to the rows above it (a height taken from another place, a place named twice) gets zeros on
 * its diagonal instead of a failure; rounding may leave it a little below zero.
 */
export function lowerTriangle(matrix: Float64Array, n: number): Float64Array {
  const rows: Float64Array[] = [];
  for (let i = 0; i < n; i++) {
    const row = new Float64Array(n);
    rows.push(row);
    for (const [j, above] of rows.entries()) {
      const rest = valueAt(matrix, i * n + j) - product(row, above, j);
      const diagonal = valueAt(above, j);
      if (i === j) row[i] = Math.sqrt(Math.max(0, rest));
      else row[j] = diagonal > SMALLEST ? rest / diagonal : 0;
    }
  }
  const root = new Float64Array(n * n);
  for (const [i, row] of rows.entries()) root.set(row, i * n);
  return root;
}

/** Σ aₖ bₖ over the first entries of two rows. */
function product(a: Float64Array, b: Float64Array, length: number): number {
  let sum = 0;
  for (let k = 0; k < length; k++) sum += (a[k] ?? Number.NaN) * (b[k] ?? Number.NaN);
  return sum;
}

/** Prepares the product of a lower triangular root with many columns: `into` takes L z. */
export function lowerProduct(root: Float64Array, n: number): (z: Float64Array, into: Float64Array) => void {
  const rows = Array.from({ length: n }, (_, i) => root.subarray(i * n, i * n + i + 1));
  return (z, into) => {
    let i = 0;
    for (const row of rows) {
      into[i] = product(row, z, i + 1);
      i++;
    }
  };
}

/** A diagonal entry below this, m, is rounding. */
const SMALLEST = 1e-9;
