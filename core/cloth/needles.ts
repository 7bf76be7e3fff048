/** A needle is narrower than this where its shorter side begins, mm: a knife does not cut it. */
const NARROW = 1;
/** … and comes to a point of less than this, rad: 30°; so does the blunt end that is left when a needle's point is gone. */
const SHARP = Math.PI / 6;
/** What goes into the ring no wider than this, mm, is a needle too: rounding turns its sides over. */
const CLOSED = 0.01;

/**
 * A ring (x y pairs, mm, counter-clockwise) without the needles that stick out of it: corners at which it runs out and straight back. Those that go into it,
 * as darts do, stay.
 */
export function withoutNeedles(ring: Float64Array): Float64Array {
  const kept = Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);
  for (let i = 0, sound = 0; kept.length > 3 && sound < kept.length; ) {
    const n = kept.length;
    i %= n;
    if (!isNeedle(kept[(i + n - 1) % n], kept[i], kept[(i + 1) % n])) {
      sound++;
      i++;
      continue;
    }
    kept.splice(i, 1);
    // Its neighbours may now be tips themselves.
    i = (i + n - 2) % (n - 1);
    sound = 0;
  }
  return 2 * kept.length === ring.length ? ring : Float64Array.from(kept.flat());
}

function isNeedle([ax, ay]: number[], [bx, by]: number[], [cx, cy]: number[]): boolean {
  const [px, py, qx, qy] = [ax - bx, ay - by, cx - bx, cy - by];
  const [p, q] = [Math.hypot(px, py), Math.hypot(qx, qy)];
  const across = qx * py - qy * px;
  const angle = Math.atan2(across, px * qx + py * qy);
  const wide = across / Math.max(p, q);
  return wide > -CLOSED && wide < NARROW && Math.abs(angle) < SHARP;
}
