import type { Field } from "./field.ts";

/** Edge of the bricks of space for which a field is kept, mm. */
const BRICK = 160;
/** Radius of the ball within which values are exact, and how far from its centre it is used, mm. */
const BALL = 50;
const REACH = 20;
const BRICK_BALL = (BRICK * Math.sqrt(3)) / 2 + BALL;
/** More bricks than this are forgotten and made anew: they are kept for speed only. */
const MOST_BRICKS = 4000;

/**
 * The same field, faster where points follow one another closely: it keeps the field of each brick of space it has been
 * asked about, and within that the one of the last ball. Equal to `field` to the last digit of what `within` promises;
 * far from the surface it asks the whole field. Its `gradient` is always that of its own last `evaluate`.
 */
export function nearby(field: Field): Field {
  const bricks = new Map<number, Field>();
  let ball = field;
  let last = field;
  let cx = Number.NaN;
  let cy = Number.NaN;
  let cz = Number.NaN;

  const brickAt = (x: number, y: number, z: number): Field => {
    const i = Math.floor(x / BRICK);
    const j = Math.floor(y / BRICK);
    const k = Math.floor(z / BRICK);
    const key = ((i + 4096) * 8192 + (j + 4096)) * 8192 + (k + 4096);
    const known = bricks.get(key);
    if (known) return known;
    if (bricks.size >= MOST_BRICKS) bricks.clear();
    const made = field.within((i + 0.5) * BRICK, (j + 0.5) * BRICK, (k + 0.5) * BRICK, BRICK_BALL);
    bricks.set(key, made);
    return made;
  };
  const ballAt = (x: number, y: number, z: number): Field => {
    const dx = x - cx;
    const dy = y - cy;
    const dz = z - cz;
    if (!(dx * dx + dy * dy + dz * dz < REACH * REACH)) {
      ball = brickAt(x, y, z).within(x, y, z, BALL, BALL);
      cx = x;
      cy = y;
      cz = z;
    }
    return ball;
  };

  return {
    get gradient() {
      return last.gradient;
    },
    evaluate(x, y, z) {
      last = ballAt(x, y, z);
      const value = last.evaluate(x, y, z);
      if (Math.abs(value) < BALL) return value;
      last = field;
      return field.evaluate(x, y, z);
    },
    shares: (x, y, z) => ballAt(x, y, z).shares(x, y, z),
    faces: field.faces,
    owner: (shares) => field.owner(shares),
    within: (x, y, z, radius, band) =>
      radius <= BALL ? brickAt(x, y, z).within(x, y, z, radius, band) : field.within(x, y, z, radius, band),
    bounds: field.bounds,
    edge: field.edge,
  };
}
