/** Most operands of one blend. */
export const MOST_OPERANDS = 96;

/** Two normals closer than this (1 − cosine) press as one. */
const PARALLEL = 1e-9;

/**
 * The forces with which up to three of n half-spaces hold a point that is pressed against them: maximises λ·u over λ with
 * G λ = u on the chosen ones and λ ≥ 0. u are the excesses (how far each is violated), G the Gram matrix of their normals
 * (n × n, row by row). Every subset's value is a lower bound of the whole problem and one attains it (weak duality;
 * Carathéodory: three normals span the space), so the largest is the answer and no test of feasibility is needed.
 * Writes λ to `force` and returns how many are held; `top` is the largest excess, which must be positive. u and force are
 * read and written from index `row` on.
 */
export function activeSet(
  n: number,
  u: Float64Array,
  gram: Float64Array,
  top: number,
  force: Float64Array,
  row: number,
): number {
  if (n === 2) return ofTwo(u, gram, force, row);
  let a = top;
  let b = -1;
  let c = -1;
  let la = u[row + top] / gram[top * n + top];
  let lb = 0;
  let lc = 0;
  let best = la * u[row + top];
  for (let i = 0; i < n; i++) {
    const gii = gram[i * n + i];
    const ui = u[row + i];
    if (i !== top && ui > 0 && (ui * ui) / gii > best) {
      best = (ui * ui) / gii;
      a = i;
      b = -1;
      c = -1;
      la = ui / gii;
    }
    for (let j = i + 1; j < n; j++) {
      const uj = u[row + j];
      if (ui <= 0 && uj <= 0) continue;
      const gjj = gram[j * n + j];
      const gij = gram[i * n + j];
      const det = gii * gjj - gij * gij;
      if (det < PARALLEL * gii * gjj) continue;
      const li = (ui * gjj - gij * uj) / det;
      const lj = (uj * gii - gij * ui) / det;
      if (li > 0 && lj > 0) {
        const value = li * ui + lj * uj;
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
        const ti = (ai * ui + aij * uj + aik * u[row + k]) / volume;
        if (ti <= 0) continue;
        const ajk = gij * gik - gii * gjk;
        const tj = (aij * ui + (gii * gkk - gik * gik) * uj + ajk * u[row + k]) / volume;
        if (tj <= 0) continue;
        const tk = (aik * ui + ajk * uj + (gii * gjj - gij * gij) * u[row + k]) / volume;
        if (tk <= 0) continue;
        const value = ti * ui + tj * uj + tk * u[row + k];
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
  for (let i = 0; i < n; i++) force[row + i] = 0;
  force[row + a] = la;
  if (b < 0) return 1;
  force[row + b] = lb;
  if (c < 0) return 2;
  force[row + c] = lc;
  return 3;
}

/** The same for two, most of all asked: both hold where both forces are positive, else the one that holds better. */
function ofTwo(u: Float64Array, gram: Float64Array, force: Float64Array, row: number): number {
  const ua = u[row];
  const ub = u[row + 1];
  const aa = gram[0];
  const ab = gram[1];
  const bb = gram[3];
  const det = aa * bb - ab * ab;
  const onA = ua * bb - ab * ub;
  const onB = ub * aa - ab * ua;
  if (onA > 0 && onB > 0 && det >= PARALLEL * aa * bb) {
    force[row] = onA / det;
    force[row + 1] = onB / det;
    return 2;
  }
  const first = ub <= 0 || (ua > 0 && ua * ua * bb >= ub * ub * aa);
  force[row] = first ? ua / aa : 0;
  force[row + 1] = first ? 0 : ub / bb;
  return 1;
}
