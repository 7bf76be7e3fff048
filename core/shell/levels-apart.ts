/** A lower riser is rounded away by the usual nose above it and the radius at its foot, mm. Practice: nobody's foot finds it. */
export const LEAST_RISER = 25;
/** Faces of two features this near to each other, or nearer, are a slip, mm: it is within the tolerance of the mould. */
export const NEAR = 5;

/** Whether two treads of different features are meant to be level, or a step apart, and are neither; depths in mm. */
export function isSlip(depth: number, other: number): boolean {
  const apart = Math.abs(depth - other);
  return apart > 1e-6 && apart <= NEAR + 1e-6;
}

/** The least whole depth from `least` on that is no slip beside any of the others, mm: level with one, or a step below it. */
export function depthFrom(least: number, others: readonly number[]): number {
  let depth = Math.ceil(least);
  for (const other of [...others].sort((a, b) => a - b)) {
    if (!isSlip(depth, other)) continue;
    depth = other > depth && Number.isInteger(other) ? other : Math.ceil(other + LEAST_RISER);
  }
  return depth;
}
