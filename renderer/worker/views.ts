import type { LaidZone, Layup } from "../../core/layup/laid.ts";
import type { SurfaceMesh } from "../../core/mesh/mesh.ts";
import { chainBounds } from "../../core/plan/chain-bounds.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import type { ShopSpec } from "../../core/project/schema.ts";
import type { LineGuess } from "../../core/shell/line-guesses.ts";
import type { Measure } from "../../core/shell/measure.ts";
import type { Shell } from "../../core/shell/shell.ts";
import type { Transition } from "../../core/shell/transitions.ts";
import { doubles } from "./doubles.ts";
import { straightened } from "./drawing/bends.ts";
import { drawZone } from "./drawing/draw-zone.ts";
import type { Drawing } from "./drawing/drawing.ts";
import { fittingOutlines } from "./fitting-outlines.ts";
import type { LayupView, LineView, MeasureView, ShellView, ZoneView } from "./messages.ts";

/** The results as they go to the window: plain data, arrays in the sizes that the graphics card takes. */

/** Most distance between points of the rim's outline, mm. */
const RIM_STEP = 40;

export function shellView(shell: Shell, mesh: SurfaceMesh, full = false): ShellView {
  const { chain } = shell.outline;
  const box = chainBounds(chain);
  const count = Math.ceil(chain.length / RIM_STEP);
  const rim = new Float32Array(2 * count);
  for (let i = 0; i < count; i++) {
    const { x, y } = pointAt(chain, (i * chain.length) / count);
    rim[2 * i] = x;
    rim[2 * i + 1] = y;
  }
  let lowest = 0;
  for (let i = 2; i < mesh.positions.length; i += 3) lowest = Math.min(lowest, mesh.positions[i]);
  return {
    full,
    faces: shell.faces,
    adjustments: shell.adjustments,
    positions: new Float32Array(mesh.positions),
    normals: mesh.normals.slice(),
    triangles: mesh.triangles.slice(),
    owner: mesh.owner.slice(),
    size: { length: box.maxX - box.minX, width: box.maxY - box.minY, depth: -lowest },
    rim,
    rimLengthMm: chain.length,
    flange: shell.spec.coping.flange,
    fittings: fittingOutlines(shell),
  };
}

/** Lines on the lay-up surface, and the same moved back through the laminate to the gel coat. */
export function lineViews(transitions: readonly Transition[], laidThickness: number): LineView[] {
  return transitions.map(({ id, kind, between, closed, lengthMm, curve }) => ({
    id,
    kind,
    between,
    closed,
    lengthMm,
    outside: new Float32Array(curve.points),
    inside: Float32Array.from(curve.points, (p, i) => p - laidThickness * curve.normals[i]),
  }));
}

/** How far a line is drawn off the points at which it crosses the edges of a mesh, mm: of five points one is left. */
const LINE_OFF = 1;

/** Lines as the mesh shows them, on the gel coat alone: for the eye while a figure is dragged. */
export function guessedLines(guesses: readonly LineGuess[]): LineView[] {
  return guesses.map(({ kind, between, closed, lengthMm, points }, i) => {
    const inside = straightened(new Float32Array(points), LINE_OFF);
    return { id: `guess ${i + 1}`, kind, between, closed, lengthMm, inside, outside: inside.slice() };
  });
}

/** Draws each zone once: one that the window was given before goes without its drawing. */
export function makeLayupView(): (layup: Layup, shop: ShopSpec) => LayupView {
  const keys = new WeakMap<LaidZone, number>();
  let given = new Set<number>();
  let next = 1;
  return (layup, shop) => {
    const now = new Set<number>();
    const said = doubles(layup.zones);
    const zones = layup.zones.map((zone): ZoneView => {
      const key = keys.get(zone) ?? next++;
      keys.set(zone, key);
      now.add(key);
      const view = zoneView(zone, key, given.has(key) ? null : drawZone(zone, shop));
      const double = said.get(zone.id);
      return double === undefined ? view : { ...view, doubts: [...view.doubts, double] };
    });
    given = now;
    return { zones, adrift: layup.adrift };
  };
}

/** A laid zone with its drawing of this key. */
export function zoneView<D extends Drawing | null>(zone: LaidZone, drawingKey: number, drawing: D) {
  const { id, spec, kind, material, areaMm2, lengthMm, plies, tape, doubts } = zone;
  const allPliesMm2 = "plyAreasMm2" in zone ? zone.plyAreasMm2.reduce((sum, ply) => sum + ply, 0) : areaMm2;
  return {
    id,
    spec,
    kind,
    material,
    areaMm2,
    allPliesMm2,
    lengthMm,
    plies,
    tape,
    doubts,
    drawingKey,
    drawing,
  };
}

export function measureView(measure: Measure): MeasureView {
  const { areaMm2, volumeToRimMm3, volumeToWaterMm3, flaws, doubts } = measure;
  return {
    areaMm2,
    volumeToRimMm3,
    volumeToWaterMm3,
    faces: measure.faces.map((face) => ({ id: face.id, areaMm2: face.areaMm2 })),
    lines: measure.transitions.map(({ id, lengthMm }) => ({ id, lengthMm })),
    flaws,
    doubts,
  };
}
