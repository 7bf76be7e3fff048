/** Numbers from 0 up to 1, the same for the same seed: D. E. Knuth's linear congruence (TAOCP 2, 3.3.4), modulus 2^32. */
export function randomNumbers(seed: number): () => number {
  let state = Math.imul(seed + 1, 2654435761) | 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) | 0;
    return (state >>> 0) / 2 ** 32;
  };
}
