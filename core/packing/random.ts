/** Draws numbers in [0, 1). */
export type Random = () => number;

/**
 * Numbers at random from a seed (a whole number): the same seed draws the same numbers on every machine. A counter is
 * stepped by an odd constant and its bits mixed by multiplications and shifts, as in Steele, Lea and Flood, "Fast
 * splittable pseudorandom number generators", OOPSLA 2014, in 32 bits.
 */
export function randomFrom(seed: number): Random {
  let counter = seed | 0;
  return () => {
    counter = (counter + 0x9e3779b9) | 0;
    let bits = counter ^ (counter >>> 16);
    bits = Math.imul(bits, 0x21f0aaad);
    bits ^= bits >>> 15;
    bits = Math.imul(bits, 0x735a2d97);
    bits ^= bits >>> 15;
    return (bits >>> 0) / 4294967296;
  };
}

/** A whole number from 0 to `count` − 1. */
export const pick = (random: Random, count: number): number => Math.floor(random() * count);

/** Puts a list into a random order, in place. */
export function shuffle<T>(list: T[], random: Random): T[] {
  for (let i = list.length - 1; i > 0; i--) {
    const j = pick(random, i + 1);
    [list[i], list[j]] = [list[j], list[i]];
  }
  return list;
}
