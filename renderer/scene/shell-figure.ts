import { BufferGeometry, Group, Mesh, type Plane, type Ray, type ShaderMaterial, type Vector3 } from "three";
import type { ShellView } from "../worker/messages.ts";
import { contourOf, crossingOf, Scratch } from "./ink/contour.ts";
import { InkLines, joinSegments, segmentsOf } from "./ink/ink-line.ts";
import { makeShellMaterial, paintShell } from "./materials/shell-material.ts";
import type { Palette } from "./palette.ts";
import { ShellSurface } from "./shell-surface.ts";

/** A place on the shell under the pointer, in the shell's own coordinates. */
export interface ShellHit {
  readonly point: Vector3;
  readonly distance: number;
  /** Index into the shell's faces. */
  readonly face: number;
}

/**
 * The shell as an illustrator draws it: a matte surface, its contour, its open edge and, where it is cut, the cut. It keeps the mesh that
 * came first beside the full one, to be drawn from where frames of the full one prove slow, and to be pointed at.
 */
export class ShellFigure extends Group {
  private readonly outside = new Mesh(new BufferGeometry(), makeShellMaterial("outside"));
  private readonly inside = new Mesh(this.outside.geometry, makeShellMaterial("inside"));
  private readonly materials: readonly ShaderMaterial[] = [this.outside.material, this.inside.material];
  private readonly contour = new InkLines(1.7, 5);
  private readonly edge = new InkLines(1.7, 4);
  private readonly cut = new InkLines(2.6, 4);
  private readonly openings = new InkLines(1.4, 2.5);
  private readonly inks = [this.contour, this.edge, this.cut, this.openings];
  private readonly scratch = new Scratch();
  private readonly eye = { x: Number.NaN, y: 0, z: 0 };
  private local: { readonly n: readonly [number, number, number]; readonly d: number } | null = null;
  private coarse: ShellSurface | null = null;
  private fine: ShellSurface | null = null;
  private drafting = false;

  constructor() {
    super();
    this.add(this.outside, this.inside, ...this.inks);
    this.contour.renderOrder = 2;
    this.edge.renderOrder = 2;
    this.cut.renderOrder = 3;
  }

  /** Shows a shell; a full mesh joins the coarser one of the same shell that came before it. */
  setShell(view: ShellView): void {
    this.fine?.dispose();
    this.fine = null;
    if (view.full && this.coarse) this.fine = new ShellSurface(view);
    else {
      this.coarse?.dispose();
      this.coarse = new ShellSurface(view);
    }
    this.openings.draw(joinSegments(view.fittings.map(({ outline }) => segmentsOf(outline, true))));
    this.dress();
  }

  /** Whether there are two meshes to choose from. */
  get hasFine(): boolean {
    return this.fine !== null;
  }

  /** Draws from the coarser mesh, or from the finest again. */
  set draft(draft: boolean) {
    if (draft === this.drafting) return;
    this.drafting = draft;
    if (this.fine) this.dress();
  }

  paint(palette: Palette, seeThrough: boolean): void {
    paintShell(this.outside.material, "outside", palette, seeThrough);
    paintShell(this.inside.material, "inside", palette, seeThrough);
    for (const ink of this.inks) ink.material.ink = palette.ink;
  }

  /** Lights up the face of this name; null none. */
  light(face: string | null): void {
    const index = face === null ? -1 : (this.coarse?.view.faces.findIndex((each) => each.id === face) ?? -1);
    for (const material of this.materials) material.uniforms.hovered.value = index;
  }

  /** Cuts the shell open: `world` is the plane as it stands in the scene, `local` the same in the shell's coordinates. */
  setSection(world: Plane | null, local: { n: readonly [number, number, number]; d: number } | null): void {
    const planes = world ? [world] : null;
    for (const material of this.materials) material.clippingPlanes = planes;
    for (const ink of [this.contour, this.edge, this.openings]) ink.material.clippingPlanes = planes;
    this.local = local;
    this.drawCut();
  }

  /** Draws the contour for an eye in the shell's own coordinates, if it has moved. */
  lookFrom(eye: Vector3): void {
    const { drawn, scratch } = this;
    if (!drawn || (eye.x === this.eye.x && eye.y === this.eye.y && eye.z === this.eye.z)) return;
    this.eye.x = eye.x;
    this.eye.y = eye.y;
    this.eye.z = eye.z;
    const written = contourOf(drawn.view, [eye.x, eye.y, eye.z], scratch);
    this.contour.draw(scratch.segments, written);
  }

  /** The first place that a ray, in the shell's coordinates, meets on the side of the section that is kept. */
  pick(ray: Ray, kept: (point: Vector3) => boolean): ShellHit | null {
    const { coarse } = this;
    const hit = coarse?.hits(ray).find(({ point }) => kept(point));
    if (!coarse || !hit || hit.faceIndex === null || hit.faceIndex === undefined) return null;
    const { view } = coarse;
    const corners = view.triangles.subarray(3 * hit.faceIndex, 3 * hit.faceIndex + 3);
    return { point: hit.point, distance: hit.distance, face: ownerNear(view, corners, hit.point) };
  }

  override dispose(): void {
    this.coarse?.dispose();
    this.fine?.dispose();
    for (const material of this.materials) material.dispose();
    for (const ink of this.inks) ink.dispose();
  }

  private get drawn(): ShellSurface | null {
    return this.drafting ? this.coarse : (this.fine ?? this.coarse);
  }

  /** Puts on what hangs on the mesh that is drawn. */
  private dress(): void {
    const { drawn } = this;
    if (!drawn) return;
    this.outside.geometry = drawn.geometry;
    this.inside.geometry = drawn.geometry;
    this.edge.draw(drawn.openEdge);
    this.eye.x = Number.NaN;
    this.drawCut();
  }

  private drawCut(): void {
    const { drawn, local } = this;
    this.cut.draw(drawn && local ? crossingOf(drawn.view, local.n, local.d) : new Float32Array(0));
  }
}

/** The owner of the corner nearest to a point. */
function ownerNear({ positions, owner }: ShellView, corners: Uint32Array, point: Vector3): number {
  let best = Infinity;
  let face = owner[corners[0]];
  for (const v of corners) {
    const dx = positions[3 * v] - point.x;
    const dy = positions[3 * v + 1] - point.y;
    const dz = positions[3 * v + 2] - point.z;
    const distance = dx * dx + dy * dy + dz * dz;
    if (distance >= best) continue;
    best = distance;
    face = owner[v];
  }
  return face;
}
