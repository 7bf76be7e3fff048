/**
 * Where a rising function passes through zero between `low` (value `below` < 0) and `high` (value `above` ≥ 0), within
 * `tolerance`: false position with Illinois halving (Dowell and Jarratt, BIT 11, 1971), and every third step a plain
 * halving, so that jumps and kinks cost no more than bisection. Returns the end at which the value is ≥ 0; NaN as soon
 * as the function gives NaN.
 */
export function bracketedRoot(
  value: (at: number) => number,
  low: number,
  below: number,
  high: number,
  above: number,
  tolerance: number,
): number {
  let held = 0;
  for (let round = 0; round < 200 && high - low > tolerance && above > 0; round++) {
    let at = low + ((high - low) * -below) / (above - below);
    if (!(at > low && at < high) || round % 3 === 2) at = (low + high) / 2;
    const now = value(at);
    if (Number.isNaN(now)) return Number.NaN;
    if (now >= 0) {
      high = at;
      above = now;
      if (held === 1) below /= 2;
      held = 1;
    } else {
      low = at;
      below = now;
      if (held === -1) above /= 2;
      held = -1;
    }
  }
  return high;
}

/**
 * As `bracketedRoot`, for a root known only to lie near `near`: widens from there by doubling strides until the signs
 * differ. NaN if they do not within `reach` to each side.
 */
export function rootNear(
  value: (at: number) => number,
  near: number,
  reach: number,
  tolerance: number,
): number {
  let low = near;
  let high = near;
  let below = value(near);
  let above = below;
  for (let stride = 2; !(below < 0) || !(above >= 0); stride *= 2) {
    if (stride > reach) return Number.NaN;
    if (!(below < 0)) {
      low = near - stride;
      below = value(low);
    }
    if (!(above >= 0)) {
      high = near + stride;
      above = value(high);
    }
  }
  return bracketedRoot(value, low, below, high, above, tolerance);
}
