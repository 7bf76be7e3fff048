import { LineMaterial } from "three/examples/jsm/lines/LineMaterial.js";
import { LineSegments2 } from "three/examples/jsm/lines/LineSegments2.js";
import { LineSegmentsGeometry } from "three/examples/jsm/lines/LineSegmentsGeometry.js";

/**
 * Ink lines of a constant width on screen. They lie on surfaces that are triangles, and at a contour half their width lies on a
 * surface that curves towards the eye: so they are drawn nearer than they are, by as much as some pixels are wide there.
 */
export class InkLines extends LineSegments2 {
  declare material: LineMaterial;
  private capacity = 0;

  /** Width, and how much nearer they are drawn, in pixels. */
  constructor(width: number, nearer: number) {
    super(new LineSegmentsGeometry(), inkMaterial(width, nearer));
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

function inkMaterial(linewidth: number, nearer: number): LineMaterial {
  const material = new LineMaterial({ linewidth, worldUnits: false });
  if (nearer === 0) return material;
  // A pixel at depth d is 2d / (P₁₁ H) wide, and d less by δ is 2nδ/d less in clip z (near plane n, far ≫ n): d cancels.
  const shift = /* glsl */ `
    float nearPlane = projectionMatrix[3][2] / (projectionMatrix[2][2] - 1.0);
    clip.z -= ${nearer.toFixed(2)} * 4.0 * nearPlane / (projectionMatrix[1][1] * resolution.y);
    gl_Position = clip;`;
  material.onBeforeCompile = (shader) => {
    shader.vertexShader = shader.vertexShader.replace("gl_Position = clip;", shift);
  };
  material.customProgramCacheKey = () => `ink ${nearer}`;
  return material;
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
