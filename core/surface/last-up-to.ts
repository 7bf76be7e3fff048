/** Index of the last of the rising values[0…last] that is no more than `at`; 0 where the first is more already. */
export function lastUpTo(values: ArrayLike<number>, at: number, last: number): number {
  let low = 0;
  let high = last;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (values[middle] <= at) low = middle;
    else high = middle - 1;
  }
  return low;
}
