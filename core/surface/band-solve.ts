/**
 * Solves A x = b for a symmetric positive definite band matrix, in place, by LDLᵀ without pivoting (Golub & Van Loan,
 * Matrix Computations, §4.3). `rows` holds the lower band row by row: A[i][i − k] at rows[i·(half + 1) + k], k = 0 … half.
 * `right` is overwritten by x. Returns false, with both overwritten, if a pivot is not positive.
 */
export function solveBand(rows: Float64Array, half: number, right: Float64Array): boolean {
  const n = right.length;
  const w = half + 1;
  for (let i = 0; i < n; i++) {
    const reach = Math.min(i, half);
    for (let k = reach; k >= 0; k--) {
      const j = i - k;
      let sum = rows[i * w + k];
      for (let m = Math.min(reach, k + Math.min(j, half)); m > k; m--) {
        // L[i][i−m] · L[j][i−m] · D[i−m]
        sum -= rows[i * w + m] * rows[j * w + (m - k)] * rows[(i - m) * w];
      }
      if (k === 0) {
        if (!(sum > 0)) return false;
        rows[i * w] = sum;
      } else rows[i * w + k] = sum / rows[j * w];
    }
  }
  for (let i = 0; i < n; i++) {
    for (let k = Math.min(i, half); k > 0; k--) right[i] -= rows[i * w + k] * right[i - k];
  }
  for (let i = 0; i < n; i++) right[i] /= rows[i * w];
  for (let i = n - 1; i >= 0; i--) {
    for (let k = Math.min(half, n - 1 - i); k > 0; k--) right[i] -= rows[(i + k) * w + k] * right[i + k];
  }
  return true;
}
