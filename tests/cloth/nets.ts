/** Nets for tests: hung on two geodesics through a point, square to each other or not. */
import { Net, type NetReach } from "../../core/cloth/net.ts";
import { geodesicYarn } from "../../core/cloth/yarn.ts";
import { fieldNear } from "../../core/surface/bricks.ts";
import type { Field } from "../../core/surface/field.ts";

export const DEGREE = Math.PI / 180;

export function netOn(
  field: Field,
  point: readonly number[],
  warpAlong: readonly number[],
  weftAlong: readonly number[],
  spacing: number,
  reach: NetReach,
  bowed = false,
): Net {
  const near = fieldNear(field);
  const warp = geodesicYarn(near, { point, direction: warpAlong }, spacing);
  const weft = geodesicYarn(near, { point, direction: weftAlong }, spacing);
  if (!warp || !weft) throw new Error(`No surface at ${point.join(", ")}.`);
  const [a, b, n] = [warpAlong, weftAlong, normalAt(field, point)];
  const turn =
    n[0] * (a[1] * b[2] - a[2] * b[1]) +
    n[1] * (a[2] * b[0] - a[0] * b[2]) +
    n[2] * (a[0] * b[1] - a[1] * b[0]);
  return new Net(near, warp, weft, turn > 0 ? 1 : -1, spacing, reach, bowed);
}

/** Point of node (i, j); the node must be there. */
export function nodeAt(net: Net, i: number, j: number): [number, number, number] {
  const met = net.ask(i, j);
  if (met !== 1) throw new Error(`Node (${i}, ${j}) is missing: ${met}.`);
  const at = net.index(i, j);
  return [net.points[at], net.points[at + 1], net.points[at + 2]];
}

/** Shear at a node from its four neighbours: 90° less the angle between the two central differences, rad. */
export function shearAtNode(net: Net, i: number, j: number): number {
  const [e, w, n, s] = [
    nodeAt(net, i + 1, j),
    nodeAt(net, i - 1, j),
    nodeAt(net, i, j + 1),
    nodeAt(net, i, j - 1),
  ];
  const u = e.map((value, k) => value - w[k]);
  const v = n.map((value, k) => value - s[k]);
  const cosine = (u[0] * v[0] + u[1] * v[1] + u[2] * v[2]) / (Math.hypot(...u) * Math.hypot(...v));
  return Math.asin(cosine);
}

function normalAt(field: Field, [x, y, z]: readonly number[]): [number, number, number] {
  field.evaluate(x, y, z);
  return [field.gradient[0], field.gradient[1], field.gradient[2]];
}
