import { LineMaterial } from "three/examples/jsm/lines/LineMaterial.js";
import { LineSegments2 } from "three/examples/jsm/lines/LineSegments2.js";
import { LineSegmentsGeometry } from "three/examples/jsm/lines/LineSegmentsGeometry.js";

/** Ink lines of a constant width on screen. */
export class InkLines extends LineSegments2 {
  declare material: LineMaterial;
  private capacity = 0;

  /** Width in pixels. */
  constructor(width: number) {
    super(new LineSegmentsGeometry(), new LineMaterial({ linewidth: width, worldUnits: false }));
    this.frustumCulled = false;
    this.visible = false;
  }

  /** Draws these segments: six figures each, the first `count` figures of the array. */
  draw(segments: Float32Array, count = segments.length): void {
    this.visible = count > 0;
    if (count === 0) return;
    if (count > this.capacity) {
      this.geometry.dispose();
      this.geometry = new LineSegmentsGeometry();
      this.capacity = 6 * Math.ceil(count / 4.5);
      this.geometry.setPositions(new Float32Array(this.capacity));
    }
    const buffer = this.geometry.getAttribute("instanceStart");
    if (!("data" in buffer)) throw new Error("Line segments without an interleaved buffer.");
    buffer.data.array.set(count === segments.length ? segments : segments.subarray(0, count));
    buffer.data.clearUpdateRanges();
    buffer.data.addUpdateRange(0, count);
    buffer.data.needsUpdate = true;
    this.geometry.instanceCount = count / 6;
  }

  override dispose(): void {
    this.geometry.dispose();
    this.material.dispose();
  }
}

/** The segments of a polyline, x y z each point. */
export function segmentsOf(points: Float32Array, closed: boolean): Float32Array {
  const count = points.length / 3;
  const segments = new Float32Array(6 * Math.max(0, closed ? count : count - 1));
  for (let i = 0; i < segments.length / 6; i++) {
    const j = (i + 1) % count;
    for (let k = 0; k < 3; k++) {
      segments[6 * i + k] = points[3 * i + k];
      segments[6 * i + 3 + k] = points[3 * j + k];
    }
  }
  return segments;
}

/** Several runs of segments in one array. */
export function joinSegments(runs: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(runs.reduce((sum, run) => sum + run.length, 0));
  let at = 0;
  for (const run of runs) {
    all.set(run, at);
    at += run.length;
  }
  return all;
}
