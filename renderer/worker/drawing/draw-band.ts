import type { LaidBand } from "../../../core/layup/laid.ts";
import type { Strip, StripSide } from "../../../core/surface/strip.ts";
import type { Drawing } from "./drawing.ts";
import { vertexNormals } from "./vertex-normals.ts";

/** Draws a band: the strip's own grid, with distances along its line and across, so that cloth and plies can be drawn on it. */
export function drawBand({ strip, plyWidths }: LaidBand): Drawing {
  const { left, right } = strip;
  const samples = strip.stations.length;
  const positions = new Float32Array(left.points.length + right.points.length);
  positions.set(left.points);
  positions.set(right.points, left.points.length);
  const inCloth = new Float32Array((2 * positions.length) / 3);
  const triangles = new Uint32Array(6 * (samples - 1) * (left.columns + right.columns - 2));
  putSide(strip, left, 1, { inCloth, triangles, vertex: 0, triangle: 0 });
  const vertex = samples * left.columns;
  const triangle = 6 * (samples - 1) * (left.columns - 1);
  putSide(strip, right, -1, { inCloth, triangles, vertex, triangle });
  return {
    pattern: "weave",
    positions,
    normals: vertexNormals(positions, triangles),
    inCloth,
    triangles,
    edges: Float32Array.from([
      ...outerEdge(strip.left),
      ...outerEdge(strip.right),
      ...(strip.closed ? [] : [...end(strip, 0), ...end(strip, strip.stations.length - 1)]),
    ]),
    plies: plyWidths,
  };
}

/** Where a side goes in the arrays: its first vertex, and its first entry of the triangles. */
interface Room {
  readonly inCloth: Float32Array;
  readonly triangles: Uint32Array;
  readonly vertex: number;
  readonly triangle: number;
}

function putSide(strip: Strip, side: StripSide, way: 1 | -1, room: Room): void {
  const { columns, cut, halfWidth } = side;
  const samples = strip.stations.length;
  const spacing = columns > 1 ? halfWidth / (columns - 1) : 0;
  let at = 2 * room.vertex;
  let corner = room.triangle;
  for (let i = 0; i < samples; i++) {
    for (let c = 0; c < columns; c++) {
      room.inCloth[at++] = strip.stations[i];
      room.inCloth[at++] = way * Math.min(c * spacing, cut[i]);
      if (i === 0 || c === 0) continue;
      const a = room.vertex + (i - 1) * columns + c - 1;
      const b = a + columns;
      // Counter-clockwise seen from the ground: left of the line is normal × tangent.
      room.triangles.set(way > 0 ? [a, b, b + 1, a, b + 1, a + 1] : [a, b + 1, b, a, a + 1, b + 1], corner);
      corner += 6;
    }
  }
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
