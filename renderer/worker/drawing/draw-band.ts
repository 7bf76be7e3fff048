import type { LaidBand } from "../../../core/layup/laid.ts";
import type { Strip, StripSide } from "../../../core/surface/strip.ts";
import type { Drawing } from "./drawing.ts";
import { vertexNormals } from "./vertex-normals.ts";

/** Draws a band: the strip's own grid, with distances along its line and across, so that cloth and plies can be drawn on it. */
export function drawBand({ strip, plyWidths }: LaidBand): Drawing {
  const left = sideGrid(strip, strip.left, 1);
  const right = sideGrid(strip, strip.right, -1);
  const shift = left.positions.length / 3;
  const positions = Float32Array.from([...left.positions, ...right.positions]);
  const triangles = Uint32Array.from([...left.triangles, ...right.triangles.map((v) => v + shift)]);
  return {
    pattern: "weave",
    positions,
    normals: vertexNormals(positions, triangles),
    inCloth: Float32Array.from([...left.inCloth, ...right.inCloth]),
    triangles,
    edges: Float32Array.from([
      ...outerEdge(strip.left),
      ...outerEdge(strip.right),
      ...(strip.closed ? [] : [...end(strip, 0), ...end(strip, strip.stations.length - 1)]),
    ]),
    plies: plyWidths,
  };
}

function sideGrid(strip: Strip, side: StripSide, way: 1 | -1) {
  const { columns, points, cut, halfWidth } = side;
  const samples = strip.stations.length;
  const spacing = columns > 1 ? halfWidth / (columns - 1) : 0;
  const inCloth: number[] = [];
  const triangles: number[] = [];
  for (let i = 0; i < samples; i++) {
    for (let c = 0; c < columns; c++) {
      inCloth.push(strip.stations[i], way * Math.min(c * spacing, cut[i]));
      if (i === 0 || c === 0) continue;
      const [a, b] = [(i - 1) * columns + c - 1, i * columns + c - 1];
      // Counter-clockwise seen from the ground: left of the line is normal × tangent.
      if (way > 0) triangles.push(a, b, b + 1, a, b + 1, a + 1);
      else triangles.push(a, b + 1, b, a, a + 1, b + 1);
    }
  }
  return { positions: Array.from(points), inCloth, triangles };
}

function outerEdge({ columns, points, cut }: StripSide): number[] {
  const edge: number[] = [];
  const at = (i: number) => 3 * (i * columns + columns - 1);
  for (let i = 1; i < cut.length; i++) edge.push(...point(points, at(i - 1)), ...point(points, at(i)));
  return edge;
}

/** The square end of an open strip. */
function end(strip: Strip, sample: number): number[] {
  const edge: number[] = [];
  for (const { columns, points } of [strip.left, strip.right])
    for (let c = 1; c < columns; c++) {
      const at = 3 * (sample * columns + c);
      edge.push(...point(points, at - 3), ...point(points, at));
    }
  return edge;
}

const point = (points: Float64Array, at: number) => [points[at], points[at + 1], points[at + 2]];
