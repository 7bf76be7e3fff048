/** Most operands of one blend. */
export const MOST_OPERANDS = 96;

/** Two normals closer than this (1 − cosine) press as one. */
const PARALLEL = 1e-9;

/**
 * The forces with which up to three of n half-spaces hold a point that is pressed against them: maximises λ·u over λ with
 * G λ = u on the chosen ones and λ ≥ 0. u are the excesses (how far each is violated), G the Gram matrix of their normals
 * (n × n, row by row). Every subset's value is a lower bound of the whole problem and one attains it (weak duality;
 * Carathéodory: three normals span the space), so the largest is the answer and no test of feasibility is needed.
 * Writes λ to `force` and returns how many are held; `top` is the largest excess, which must be positive.
 */
export function activeSet(
  n: number,
  u: readonly number[],
  gram: readonly number[],
  top: number,
  force: number[],
): number {
  let a = top;
  let b = -1;
  let c = -1;
  let la = u[top] / gram[top * n + top];
  let lb = 0;
  let lc = 0;
  let best = la * u[top];
  for (let i = 0; i < n; i++) {
    const gii = gram[i * n + i];
    if (i !== top && u[i] > 0 && (u[i] * u[i]) / gii > best) {
      best = (u[i] * u[i]) / gii;
      a = i;
      b = -1;
      c = -1;
      la = u[i] / gii;
    }
    for (let j = i + 1; j < n; j++) {
      if (u[i] <= 0 && u[j] <= 0) continue;
      const gjj = gram[j * n + j];
      const gij = gram[i * n + j];
      const det = gii * gjj - gij * gij;
      if (det < PARALLEL * gii * gjj) continue;
      const li = (u[i] * gjj - gij * u[j]) / det;
      const lj = (u[j] * gii - gij * u[i]) / det;
      if (li > 0 && lj > 0) {
        const value = li * u[i] + lj * u[j];
        if (value > best) {
          best = value;
          a = i;
          b = j;
          c = -1;
          la = li;
          lb = lj;
        }
      }
      for (let k = j + 1; k < n; k++) {
        const gkk = gram[k * n + k];
        const gik = gram[i * n + k];
        const gjk = gram[j * n + k];
        const ai = gjj * gkk - gjk * gjk;
        const aij = gik * gjk - gij * gkk;
        const aik = gij * gjk - gik * gjj;
        const volume = gii * ai + gij * aij + gik * aik;
        if (volume < 1e-7 * gii * gjj * gkk) continue;
        const ti = (ai * u[i] + aij * u[j] + aik * u[k]) / volume;
        if (ti <= 0) continue;
        const ajk = gij * gik - gii * gjk;
        const tj = (aij * u[i] + (gii * gkk - gik * gik) * u[j] + ajk * u[k]) / volume;
        if (tj <= 0) continue;
        const tk = (aik * u[i] + ajk * u[j] + (gii * gjj - gij * gij) * u[k]) / volume;
        if (tk <= 0) continue;
        const value = ti * u[i] + tj * u[j] + tk * u[k];
        if (value > best) {
          best = value;
          a = i;
          b = j;
          c = k;
          la = ti;
          lb = tj;
          lc = tk;
        }
      }
    }
  }
  for (let i = 0; i < n; i++) force[i] = 0;
  force[a] = la;
  if (b < 0) return 1;
  force[b] = lb;
  if (c < 0) return 2;
  force[c] = lc;
  return 3;
}
