import {
  BufferAttribute,
  BufferGeometry,
  DynamicDrawUsage,
  InterleavedBuffer,
  InterleavedBufferAttribute,
  Mesh,
  Vector4,
  type WebGLRenderer,
} from "three";
import { InkMaterial } from "./ink-material.ts";

/** Figures of a segment, and of its four corners in the buffer, which each hold both of its ends. */
const ENDS = 6;
const CORNERS = 4 * ENDS;

const viewport = new Vector4();

/**
 * Ink lines of a constant width on screen. They lie on surfaces that are triangles, and at a contour half their width lies on a
 * surface that curves towards the eye: so they are drawn nearer than they are, by as much as some pixels are wide there.
 *
 * Each segment has corners of its own in one plain mesh. As instances of one segment they were drawn one by one where there is
 * no graphics card: 7,800 of them took 190 ms of a processor, this way 30.
 */
export class InkLines extends Mesh<BufferGeometry, InkMaterial> {
  private segments = 0;

  /** Width, and how much nearer they are drawn, in pixels. */
  constructor(width: number, nearer: number) {
    super(new BufferGeometry(), new InkMaterial(width, nearer));
    this.frustumCulled = false;
    this.visible = false;
  }

  /** Draws these segments: six figures each, the first `count` figures of the array. */
  draw(segments: Float32Array, count = segments.length): void {
    this.visible = count > 0;
    if (count === 0) return;
    const drawn = count / ENDS;
    if (drawn > this.segments) this.makeRoom(Math.ceil(drawn * 1.3));
    const { data } = this.geometry.getAttribute("start") as InterleavedBufferAttribute;
    const { array } = data;
    for (let from = 0, to = 0; from < count; from += ENDS)
      for (let corner = 0; corner < 4; corner++)
        for (let k = 0; k < ENDS; k++) array[to++] = segments[from + k];
    data.clearUpdateRanges();
    data.addUpdateRange(0, drawn * CORNERS);
    data.needsUpdate = true;
    this.geometry.setDrawRange(0, 6 * drawn);
  }

  override onBeforeRender = (renderer: WebGLRenderer): void => {
    renderer.getViewport(viewport);
    this.material.screen.set(viewport.z, viewport.w);
  };

  override dispose(): void {
    this.geometry.dispose();
    this.material.dispose();
  }

  private makeRoom(segments: number): void {
    this.segments = segments;
    this.geometry.dispose();
    const corners = new InterleavedBuffer(new Float32Array(segments * CORNERS), ENDS);
    corners.setUsage(DynamicDrawUsage);
    const triangles = new Uint32Array(6 * segments);
    for (let i = 0, v = 0; i < triangles.length; v += 4)
      for (const corner of [0, 2, 1, 1, 2, 3]) triangles[i++] = v + corner;
    this.geometry = new BufferGeometry();
    this.geometry.setAttribute("start", new InterleavedBufferAttribute(corners, 3, 0));
    this.geometry.setAttribute("end", new InterleavedBufferAttribute(corners, 3, 3));
    this.geometry.setIndex(new BufferAttribute(triangles, 1));
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
