import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  Group,
  Mesh,
  type Plane,
  type Ray,
  type ShaderMaterial,
  type Vector3,
} from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { ShellView } from "../worker/messages.ts";
import { contourOf, crossingOf, openEdges, Scratch } from "./ink/contour.ts";
import { InkLines, joinSegments, segmentsOf } from "./ink/ink-line.ts";
import { makeShellMaterial, paintShell } from "./materials/shell-material.ts";
import type { Palette } from "./palette.ts";

/** A place on the shell under the pointer, in the shell's own coordinates. */
export interface ShellHit {
  readonly point: Vector3;
  readonly distance: number;
  /** Index into the shell's faces. */
  readonly face: number;
}

/** The shell as an illustrator draws it: a matte surface, its contour, its open edge and, where it is cut, the cut. */
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
  private shell: ShellView | null = null;
  private tree: MeshBVH | null = null;

  constructor() {
    super();
    this.add(this.outside, this.inside, ...this.inks);
    this.contour.renderOrder = 2;
    this.edge.renderOrder = 2;
    this.cut.renderOrder = 3;
  }

  setShell(shell: ShellView): void {
    this.shell = shell;
    this.tree = null;
    this.eye.x = Number.NaN;
    this.outside.geometry.dispose();
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(shell.positions, 3));
    geometry.setAttribute("normal", new BufferAttribute(shell.normals, 3));
    geometry.setAttribute("owner", new BufferAttribute(Float32Array.from(shell.owner), 1));
    geometry.setIndex(new BufferAttribute(shell.triangles, 1));
    geometry.computeBoundingSphere();
    this.outside.geometry = geometry;
    this.inside.geometry = geometry;
    this.edge.draw(openEdges(shell));
    this.openings.draw(joinSegments(shell.fittings.map(({ outline }) => segmentsOf(outline, true))));
  }

  paint(palette: Palette, seeThrough: boolean): void {
    paintShell(this.outside.material, "outside", palette, seeThrough);
    paintShell(this.inside.material, "inside", palette, seeThrough);
    for (const ink of this.inks) ink.material.ink = palette.ink;
  }

  /** Lights up the face of this name; null none. */
  light(face: string | null): void {
    const index = face === null ? -1 : (this.shell?.faces.findIndex((each) => each.id === face) ?? -1);
    for (const material of this.materials) material.uniforms.hovered.value = index;
  }

  /** Cuts the shell open: `world` is the plane as it stands in the scene, `local` the same in the shell's coordinates. */
  setSection(world: Plane | null, local: { n: readonly [number, number, number]; d: number } | null): void {
    const planes = world ? [world] : null;
    for (const material of this.materials) material.clippingPlanes = planes;
    for (const ink of [this.contour, this.edge, this.openings]) ink.material.clippingPlanes = planes;
    this.cut.draw(this.shell && local ? crossingOf(this.shell, local.n, local.d) : new Float32Array(0));
  }

  /** Draws the contour for an eye in the shell's own coordinates, if it has moved. */
  lookFrom(eye: Vector3): void {
    const { shell, scratch } = this;
    if (!shell || (eye.x === this.eye.x && eye.y === this.eye.y && eye.z === this.eye.z)) return;
    this.eye.x = eye.x;
    this.eye.y = eye.y;
    this.eye.z = eye.z;
    const written = contourOf(shell, [eye.x, eye.y, eye.z], scratch);
    this.contour.draw(scratch.segments, written);
  }

  /** The first place that a ray, in the shell's coordinates, meets on the side of the section that is kept. */
  pick(ray: Ray, kept: (point: Vector3) => boolean): ShellHit | null {
    const { shell, outside } = this;
    if (!shell) return null;
    this.tree ??= new MeshBVH(outside.geometry, { indirect: true });
    const hits = this.tree.raycast(ray, DoubleSide).sort((a, b) => a.distance - b.distance);
    const hit = hits.find(({ point }) => kept(point));
    if (!hit || hit.faceIndex === null || hit.faceIndex === undefined) return null;
    const corners = shell.triangles.subarray(3 * hit.faceIndex, 3 * hit.faceIndex + 3);
    return { point: hit.point, distance: hit.distance, face: ownerNear(shell, corners, hit.point) };
  }

  override dispose(): void {
    this.outside.geometry.dispose();
    for (const material of this.materials) material.dispose();
    for (const ink of this.inks) ink.dispose();
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
