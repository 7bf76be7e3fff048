/** A needle is narrower than this where its shorter side begins, mm: a knife does not cut it. */
const NARROW = 1;
/** … and comes to a point of less than this, rad: 30°; so does the blunt end that is left when a needle's point is gone. */
const SHARP = Math.PI / 6;
/** What goes into the ring no wider than this, mm, is a needle too: rounding turns its sides over. */
const CLOSED = 0.01;
/** A needle that goes into the ring is no dart but a nick if it is no deeper than this, mm … */
const NICK = 15;
/** … from where the ring turns into it more sharply than this, rad: 120°. */
const MOUTH = (2 * Math.PI) / 3;

/**
 * A ring (x y pairs, mm, counter-clockwise) without the needles that stick out of it: corners at which it runs out and straight back. Those that go into it,
 * as darts do, stay, but for nicks: they are left where two lines of sight meet.
 */
export function withoutNeedles(ring: Float64Array): Float64Array {
  const kept = Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);
  for (let i = 0, sound = 0; kept.length > 3 && sound < kept.length; ) {
    const n = kept.length;
    i %= n;
    const at = (by: number) => kept[(i + by + n) % n];
    if (!isNeedle(at(-1), at(0), at(1)) && !isNick(at(-2), at(-1), at(0), at(1), at(2))) {
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

function isNick(o: number[], a: number[], b: number[], c: number[], d: number[]): boolean {
  const [p, q] = [Math.hypot(a[0] - b[0], a[1] - b[1]), Math.hypot(c[0] - b[0], c[1] - b[1])];
  if (Math.min(p, q) > NICK || angleAt(b, a, c) > SHARP) return false;
  // Its mouth is at the end of its shorter side.
  const isMouth = p < q ? angleAt(a, o, b) < MOUTH : angleAt(c, b, d) < MOUTH;
  return isMouth && Math.min(p, q) * Math.sin(angleAt(b, a, c)) < NARROW;
}

/** The angle at a corner between two others, 0 … π. */
function angleAt([x, y]: number[], [ax, ay]: number[], [bx, by]: number[]): number {
  const [px, py, qx, qy] = [ax - x, ay - y, bx - x, by - y];
  return Math.abs(Math.atan2(px * qy - py * qx, px * qx + py * qy));
}
