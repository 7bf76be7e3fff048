/**
 * Inverse of a dense n × n matrix, rows one after another, by elimination with row pivots; the matrix is used up.
 * Undefined where it is singular.
 */
export function invert(matrix: Float64Array, n: number): Float64Array | undefined {
  const inverse = new Float64Array(n * n);
  for (let r = 0; r < n; r++) inverse[r * n + r] = 1;
  for (let c = 0; c < n; c++) {
    let top = c;
    for (let r = c + 1; r < n; r++) {
      if (Math.abs(matrix[r * n + c]) > Math.abs(matrix[top * n + c])) top = r;
    }
    const pivot = matrix[top * n + c];
    if (Math.abs(pivot) < 1e-9) return undefined;
    for (const data of [matrix, inverse]) {
      if (top !== c) swapRows(data, top, c, n);
      for (let j = 0; j < n; j++) data[c * n + j] /= pivot;
    }
    for (let r = 0; r < n; r++) {
      const by = matrix[r * n + c];
      if (r === c || by === 0) continue;
      for (let j = 0; j < n; j++) {
        matrix[r * n + j] -= by * matrix[c * n + j];
        inverse[r * n + j] -= by * inverse[c * n + j];
      }
    }
  }
  return inverse;
}

function swapRows(data: Float64Array, a: number, b: number, n: number): void {
  for (let j = 0; j < n; j++) {
    const kept = data[a * n + j];
    data[a * n + j] = data[b * n + j];
    data[b * n + j] = kept;
  }
}
