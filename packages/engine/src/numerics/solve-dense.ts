/**
 * Solves A·x = b for a small dense matrix: Gaussian elimination with partial pivoting.
 *
 * `a` is n × n, row after row, and `b` has n entries; both are overwritten and `b` becomes x. Nothing is allocated.
 * Returns false, with `b` of no use, when a pivot is zero or not finite. Cost n³/3 multiplications; the error is a
 * few rounding units times the condition of A.
 *
 * Source: Golub and Van Loan, Matrix Computations, 4th edition, algorithm 3.4.1.
 */
export function solveDense(a: Float64Array, b: Float64Array, n: number): boolean {
  for (let k = 0; k < n; k++) {
    let pivotRow = k;
    let largest = Math.abs(a[k * n + k]!);
    for (let i = k + 1; i < n; i++) {
      const size = Math.abs(a[i * n + k]!);
      if (size > largest) {
        largest = size;
        pivotRow = i;
      }
    }
    if (!(largest > 0 && largest < Infinity)) return false;
    if (pivotRow !== k) {
      for (let j = k; j < n; j++) {
        const swapped = a[k * n + j]!;
        a[k * n + j] = a[pivotRow * n + j]!;
        a[pivotRow * n + j] = swapped;
      }
      const swapped = b[k]!;
      b[k] = b[pivotRow]!;
      b[pivotRow] = swapped;
    }
    const inverse = 1 / a[k * n + k]!;
    for (let i = k + 1; i < n; i++) {
      const factor = a[i * n + k]! * inverse;
      if (factor === 0) continue;
      for (let j = k + 1; j < n; j++) a[i * n + j]! -= factor * a[k * n + j]!;
      b[i]! -= factor * b[k]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let j = i + 1; j < n; j++) sum -= a[i * n + j]! * b[j]!;
    b[i] = sum / a[i * n + i]!;
    if (!Number.isFinite(b[i]!)) return false;
  }
  return true;
}
