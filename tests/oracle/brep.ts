/**
 * The other kernel: replicad over OpenCASCADE, a boundary representation. What is needed of it here: wires from chains of
 * lines and arcs, prisms, and fillets on edges chosen by where they lie.
 */
import * as replicad from "replicad";
import openCascade from "replicad-opencascadejs";
import type { Chain, Segment } from "../../core/plan/chain.ts";
import { segmentAt } from "../../core/plan/segments.ts";

export type Solid = replicad.Shape3D;
export type Point = [number, number, number];

let loading: Promise<void> | undefined;

/** Loads the other kernel (some 23 MB of WebAssembly), once. */
export function loadBrep(): Promise<void> {
  loading ??= openCascade().then((oc) => replicad.setOC(oc));
  return loading;
}

/** The edges of a chain moved `right` mm to its right: lines stay lines, arcs change their radius. */
function edgesOf(chain: Chain, right: number, place: (a: number, b: number) => Point): replicad.Edge[] {
  const on = (s: Segment, part: number): Point => {
    const p = segmentAt(s, part * s.length);
    return place(p.x + right * p.ty, p.y - right * p.tx);
  };
  return chain.segments.map((s) =>
    s.kind === "line"
      ? replicad.makeLine(on(s, 0), on(s, 1))
      : replicad.makeThreePointArc(on(s, 0), on(s, 0.5), on(s, 1)),
  );
}

/** A closed outline moved outwards by `d` mm, at height `z`. */
const outlineWire = (outline: Chain, d: number, z: number): replicad.Wire =>
  replicad.assembleWire(edgesOf(outline, d, (x, y) => [x, y, z]));

/** Plan area (mm²) and perimeter (mm) of the outline moved outwards by `d` mm. */
export function measureOutline(outline: Chain, d: number): { area: number; length: number } {
  const wire = outlineWire(outline, d, 0);
  return { area: replicad.measureArea(replicad.makeFace(wire)), length: replicad.measureLength(wire) };
}

/** The upright prism over an outline moved outwards by `d` mm. */
export const upright = (outline: Chain, d: number, bottom: number, top: number): Solid =>
  replicad.basicFaceExtrusion(
    replicad.makeFace(outlineWire(outline, d, top)),
    new replicad.Vector([0, 0, bottom - top]),
  );

/** The drafted solid between two offsets of an outline at two heights: planes on its lines, cones on its arcs. */
export const drafted = (
  outline: Chain,
  low: readonly [number, number],
  high: readonly [number, number],
): Solid => replicad.loft([outlineWire(outline, ...high), outlineWire(outline, ...low)], { ruled: true });

/**
 * Everything below a profile in the xz plane (a chain that runs along +x, moved `right` mm to its right), down to
 * `bottom`, across the pool from y = −reach to reach; turned about the x axis by `fall` rad (positive: deeper on the right).
 */
export function below(profile: Chain, right: number, bottom: number, reach: number, fall = 0): Solid {
  const edges = edgesOf(profile, right, (x, z) => [x, -reach, z]);
  const a = edges[0].startPoint;
  const b = edges[edges.length - 1].endPoint;
  const under = (x: number): Point => [x, -reach, bottom];
  const wire = replicad.assembleWire([
    ...edges,
    replicad.makeLine([b.x, b.y, b.z], under(b.x)),
    replicad.makeLine(under(b.x), under(a.x)),
    replicad.makeLine(under(a.x), [a.x, a.y, a.z]),
  ]);
  const prism = replicad.basicFaceExtrusion(replicad.makeFace(wire), new replicad.Vector([0, 2 * reach, 0]));
  return fall === 0 ? prism : prism.rotate((fall * 180) / Math.PI, [0, 0, 0], [1, 0, 0]);
}

/** Rounds every edge of which five points meet a test. Throws if there is none. */
export function fillet(
  solid: Solid,
  radius: number,
  test: (x: number, y: number, z: number) => boolean,
): Solid {
  let found = 0;
  const rounded = solid.fillet(radius, (edges) =>
    edges.when(({ element }) => {
      const chosen = [0, 0.25, 0.5, 0.75, 1].every((part) => {
        const { x, y, z } = element.pointAt(part);
        return test(x, y, z);
      });
      if (chosen) found++;
      return chosen;
    }),
  );
  if (found === 0) throw new Error(`The solid has no edge there to be rounded by ${radius} mm.`);
  return rounded;
}

export const areaOf = (solid: Solid): number => replicad.measureArea(solid);
export const volumeOf = (solid: Solid): number => replicad.measureVolume(solid);
