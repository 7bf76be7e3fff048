/**
 * A rough polyline from which an exact line is found: points in order (mm), with how far each may lie from the line.
 * Indices of a closed line may run past the last point, once round.
 */
export class GuessLine {
  readonly count: number;
  readonly length: number;
  /** Distance along the polyline to each point. */
  readonly stations: Float64Array;
  private readonly points: Float64Array;
  private readonly slack: Float64Array;
  private readonly closed: boolean;

  constructor(points: Float64Array, closed: boolean, slack: number | Float64Array) {
    const count = Math.floor(points.length / 3);
    this.points = points;
    this.count = count;
    this.closed = closed;
    this.slack = typeof slack === "number" ? new Float64Array(count).fill(slack) : slack.slice();
    this.stations = new Float64Array(count);
    let sum = 0;
    for (let k = 1; k < count; k++) {
      sum += this.gap(k - 1, k);
      this.stations[k] = sum;
    }
    this.length = count > 1 && closed ? sum + this.gap(count - 1, 0) : sum;
  }

  /** The same guess run the other way; a closed one keeps its first point. */
  reversed(): GuessLine {
    const { count, closed } = this;
    const points = new Float64Array(3 * count);
    const slack = new Float64Array(count);
    for (let k = 0; k < count; k++) {
      const from = closed ? (count - k) % count : count - 1 - k;
      for (let c = 0; c < 3; c++) points[3 * k + c] = this.points[3 * from + c];
      slack[k] = this.slack[from];
    }
    return new GuessLine(points, closed, slack);
  }

  /** Writes point k and the direction of the polyline around it (over `reach` mm to each side) to sample[at…at + 5]. */
  sample(k: number, reach: number, sample: Float64Array, at: number): void {
    const a = this.walk(k, -1, reach);
    const b = this.walk(k, 1, reach);
    const here = 3 * (k % this.count);
    let size = 0;
    for (let c = 0; c < 3; c++) {
      const d = this.points[3 * b + c] - this.points[3 * a + c];
      sample[at + c] = this.points[here + c];
      sample[at + 3 + c] = d;
      size += d * d;
    }
    size = Math.sqrt(size);
    for (let c = 3; c < 6; c++) sample[at + c] = size > 0 ? sample[at + c] / size : c === 3 ? 1 : 0;
  }

  /** First of the points first ≤ k < last that lies ahead of the sample (point, tangent) at m. */
  cut(samples: Float64Array, m: number, first: number, last: number): number {
    let k = first;
    while (k < last) {
      const i = 3 * (k % this.count);
      let ahead = 0;
      for (let c = 0; c < 3; c++) ahead += (this.points[i + c] - samples[m + c]) * samples[m + 3 + c];
      if (ahead > 0) break;
      k++;
    }
    return k;
  }

  /** The point first ≤ k < last that lies furthest beyond its slack plus `extra` from the polyline a, m, b; −1 if none does. */
  furthest(
    samples: Float64Array,
    a: number,
    m: number,
    b: number,
    first: number,
    last: number,
    extra: number,
  ): number {
    let worst = -1;
    let most = 0;
    for (let k = first; k < last; k++) {
      const i = k % this.count;
      const off = Math.min(this.distance(i, samples, a, m), this.distance(i, samples, m, b));
      const beyond = off - this.slack[i] - extra;
      if (beyond > most) {
        most = beyond;
        worst = k;
      }
    }
    return worst;
  }

  /** Takes point k out of the check that the line passes near it: a point of the line was found from it. */
  settled(k: number): void {
    this.slack[k % this.count] = Infinity;
  }

  /** Where point k lies, for a message. */
  place(k: number): string {
    const i = 3 * (k % this.count);
    return `(${Array.from(this.points.subarray(i, i + 3), (v) => v.toFixed(0)).join(", ")})`;
  }

  private gap(i: number, j: number): number {
    const p = this.points;
    return Math.hypot(p[3 * j] - p[3 * i], p[3 * j + 1] - p[3 * i + 1], p[3 * j + 2] - p[3 * i + 2]);
  }

  private walk(k: number, way: 1 | -1, reach: number): number {
    const { count } = this;
    let i = k % count;
    let gone = 0;
    for (let n = 1; n < count && gone < reach; n++) {
      let j = i + way;
      if (this.closed) j = (j + count) % count;
      else if (j < 0 || j >= count) break;
      gone += this.gap(i, j);
      i = j;
    }
    return i;
  }

  private distance(i: number, samples: Float64Array, a: number, b: number): number {
    const p = this.points;
    const dx = samples[b] - samples[a];
    const dy = samples[b + 1] - samples[a + 1];
    const dz = samples[b + 2] - samples[a + 2];
    const ex = p[3 * i] - samples[a];
    const ey = p[3 * i + 1] - samples[a + 1];
    const ez = p[3 * i + 2] - samples[a + 2];
    const d2 = dx * dx + dy * dy + dz * dz;
    const u = d2 > 0 ? Math.min(Math.max((ex * dx + ey * dy + ez * dz) / d2, 0), 1) : 0;
    return Math.hypot(ex - u * dx, ey - u * dy, ez - u * dz);
  }
}
