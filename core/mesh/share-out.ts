import { type CurvedTriangle, planeArea, pointOn } from "./curved-triangle.ts";
import type { SurfaceMesh } from "./mesh.ts";
import type { MeshEdges } from "./mesh-edges.ts";
import { lead, type OwnerCuts } from "./owner-cuts.ts";
import type { Space } from "./space.ts";

/**
 * Shares the area of a triangle whose corners belong to different faces out among them, along the lines where the
 * field's owner changes. Two faces part it along a parabola through the places on two edges and one between them; three
 * faces along three lines from the middle of the places on its edges.
 */
export interface ShareOut {
  /** Adds the parts of `area`, that of triangle t (its first half-edge), to areaByFace. */
  add(triangle: CurvedTriangle, t: number, area: number, areaByFace: Float64Array): void;
}

export function makeShareOut(space: Space, mesh: SurfaceMesh, edges: MeshEdges, cuts: OwnerCuts): ShareOut {
  const { owner, triangles } = mesh;
  const place = new Float64Array(3);
  // Barycentric places on two or three edges and in the middle.
  const cut = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
  const centre = new Float64Array(3);
  // Outline of a part: its centre first, then round it.
  const points = new Float64Array(3 * 12);

  /** Part of the edge from corner i of triangle t on to the next corner that belongs to corner i's face. */
  const onEdge = (t: number, i: number): number => {
    const h = t + i;
    const e = edges.edgeOf[h];
    return edges.halfEdge[e] === h ? cuts.place[e] : 1 - cuts.place[e];
  };
  const put = (p: CurvedTriangle, n: number, at: Float64Array): void =>
    pointOn(p, at[0], at[1], at[2], points, 3 * n);
  const putNode = (p: CurvedTriangle, n: number, node: number): void => {
    for (let i = 0; i < 3; i++) points[3 * n + i] = p[3 * node + i];
  };
  /** Area of the fan from point 0 of `points` over points 1 … n. */
  const fan = (n: number): number => {
    let area = 0;
    for (let i = 1; i < n; i++) area += planeArea(points, 0, i, i + 1);
    return area;
  };
  const setCut = (out: Float64Array, from: number, to: number, part: number): void => {
    out.fill(0);
    out[from] = 1 - part;
    out[to] = part;
  };

  /** Part of the triangle that belongs to the face of corner a; corners b and c belong to another. */
  const loneCorner = (p: CurvedTriangle, t: number, a: number): number => {
    const b = (a + 1) % 3;
    const c = (a + 2) % 3;
    const onB = onEdge(t, a);
    const onC = 1 - onEdge(t, c);
    setCut(cut[0], a, b, onB);
    setCut(cut[1], a, c, onC);
    const reach = (onB + onC) / 2;
    const away = furtherThan(p, t, a, onB, onC);
    // On the way from the corner through the middle of the chord.
    centre[a] = 1 - away * reach;
    centre[b] = (away * onB) / 2;
    centre[c] = (away * onC) / 2;
    let n = 0;
    put(p, n++, centre);
    put(p, n++, cut[1]);
    if (onC > 0.5) putNode(p, n++, 3 + c);
    putNode(p, n++, a);
    if (onB > 0.5) putNode(p, n++, 3 + a);
    put(p, n, cut[0]);
    const mine = fan(n);
    n = 0;
    put(p, n++, centre);
    put(p, n++, cut[0]);
    if (onB <= 0.5) putNode(p, n++, 3 + a);
    putNode(p, n++, b);
    putNode(p, n++, 3 + b);
    putNode(p, n++, c);
    if (onC <= 0.5) putNode(p, n++, 3 + c);
    put(p, n, cut[1]);
    const others = fan(n);
    // Under a parabola lie ⅔ of sagitta times chord, of which the fans hold half: a third of their triangle more.
    put(p, 1, cut[0]);
    put(p, 2, cut[1]);
    const bulge = (away > 1 ? 1 : -1) * (planeArea(points, 0, 1, 2) / 3);
    return Math.min(Math.max((mine + bulge) / (mine + others), 0), 1);
  };

  /** How far the line lies from corner a in the middle, chord = 1: one step by the slopes found at its ends. */
  const furtherThan = (p: CurvedTriangle, t: number, a: number, onB: number, onC: number): number => {
    const b = (a + 1) % 3;
    const c = (a + 2) % 3;
    for (let i = 0; i < 3; i++) centre[i] = (cut[0][i] + cut[1][i]) / 2;
    pointOn(p, centre[0], centre[1], centre[2], place, 0);
    const value = lead(space, place[0], place[1], place[2], owner[triangles[t + a]], owner[triangles[t + b]]);
    const slopeAt = (h: number) => cuts.slope[edges.edgeOf[h]];
    const fall = (onB * slopeAt(t + a) + onC * slopeAt(t + c)) / 2;
    return fall < -1e-6 ? Math.min(Math.max(1 - value / fall, 0.6), 1.6) : 1;
  };

  const threeFaces = (p: CurvedTriangle, t: number, area: number, out: Float64Array): void => {
    centre.fill(0);
    for (let a = 0; a < 3; a++) {
      setCut(cut[a], a, (a + 1) % 3, onEdge(t, a));
      for (let i = 0; i < 3; i++) centre[i] += cut[a][i] / 3;
    }
    const parts = [0, 0, 0];
    for (let a = 0; a < 3; a++) {
      const before = (a + 2) % 3;
      let n = 0;
      put(p, n++, centre);
      put(p, n++, cut[before]);
      if (cut[before][a] <= 0.5) putNode(p, n++, 3 + before);
      putNode(p, n++, a);
      if (cut[a][a] <= 0.5) putNode(p, n++, 3 + a);
      put(p, n, cut[a]);
      parts[a] = fan(n);
    }
    const total = parts[0] + parts[1] + parts[2];
    for (let a = 0; a < 3; a++) out[owner[triangles[t + a]]] += (area * parts[a]) / total;
  };

  const add = (p: CurvedTriangle, t: number, area: number, areaByFace: Float64Array): void => {
    const [u, v, w] = [owner[triangles[t]], owner[triangles[t + 1]], owner[triangles[t + 2]]];
    const alone = u === v ? 2 : v === w ? 0 : w === u ? 1 : -1;
    if (alone < 0) {
      threeFaces(p, t, area, areaByFace);
      return;
    }
    const part = loneCorner(p, t, alone);
    areaByFace[owner[triangles[t + alone]]] += part * area;
    areaByFace[owner[triangles[t + ((alone + 1) % 3)]]] += (1 - part) * area;
  };
  return { add };
}
