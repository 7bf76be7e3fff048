import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  Group,
  Mesh,
  type Plane,
  type Ray,
  type Vector3,
} from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { Drawing } from "../worker/drawing/drawing.ts";
import type { LaidZoneView } from "../worker/results.ts";
import { InkLines } from "./ink/ink-line.ts";
import { makeClothMaterial, paintCloth, setPlies } from "./materials/cloth-material.ts";
import type { Palette } from "./palette.ts";

/** The reinforcement as it lies on the back of the laminate, each zone in its material's pattern. */
export class ZonesFigure extends Group {
  private figures = new Map<string, ZoneFigure>();
  private palette: Palette | null = null;
  private planes: Plane[] | null = null;
  private lit: ReadonlySet<string> = new Set();

  /** Shows these zones; what has the drawing it had before is left as it is. */
  setZones(zones: readonly LaidZoneView[]): void {
    const next = new Map<string, ZoneFigure>();
    for (const zone of zones) {
      const known = this.figures.get(zone.id);
      if (known?.key === zone.drawingKey) {
        next.set(zone.id, known);
        this.figures.delete(zone.id);
      } else next.set(zone.id, new ZoneFigure(zone.id, zone.drawingKey, zone.drawing));
    }
    for (const gone of this.figures.values()) {
      this.remove(gone);
      gone.dispose();
    }
    this.figures = next;
    for (const figure of next.values()) if (figure.parent !== this) this.add(figure);
    this.dress();
  }

  paint(palette: Palette): void {
    this.palette = palette;
    this.dress();
  }

  light(ids: ReadonlySet<string>): void {
    this.lit = ids;
    this.dress();
  }

  setSection(world: Plane | null): void {
    this.planes = world ? [world] : null;
    this.dress();
  }

  /** The zone that a ray, in the shell's coordinates, meets first, and how far off. */
  pick(
    ray: Ray,
    kept: (point: Vector3) => boolean,
  ): { readonly id: string; readonly distance: number } | null {
    let found: { id: string; distance: number } | null = null;
    for (const figure of this.figures.values()) {
      const distance = figure.pick(ray, kept);
      if (distance !== null && distance < (found?.distance ?? Infinity))
        found = { id: figure.zone, distance };
    }
    return found;
  }

  /** The middle of each zone's drawing, in the shell's coordinates. */
  middles(): { readonly id: string; readonly middle: readonly [number, number, number] }[] {
    return [...this.figures.values()].map(({ zone, middle }) => ({ id: zone, middle }));
  }

  override dispose(): void {
    for (const figure of this.figures.values()) figure.dispose();
  }

  private dress(): void {
    if (!this.palette) return;
    for (const figure of this.figures.values())
      figure.dress(this.palette, this.planes, this.lit.has(figure.zone) ? 1 : 0);
  }
}

class ZoneFigure extends Group {
  readonly zone: string;
  readonly key: number;
  private readonly drawing: Drawing;
  private readonly mesh: Mesh<BufferGeometry, ReturnType<typeof makeClothMaterial>>;
  private readonly ink = new InkLines(1, 0);
  private tree: MeshBVH | null = null;

  constructor(zone: string, key: number, drawing: Drawing) {
    super();
    this.zone = zone;
    this.key = key;
    this.drawing = drawing;
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(drawing.positions, 3));
    geometry.setAttribute("normal", new BufferAttribute(drawing.normals, 3));
    geometry.setAttribute("inCloth", new BufferAttribute(drawing.inCloth, 2));
    geometry.setIndex(new BufferAttribute(drawing.triangles, 1));
    geometry.computeBoundingSphere();
    this.mesh = new Mesh(geometry, makeClothMaterial(drawing.pattern));
    setPlies(this.mesh.material, drawing.plies);
    this.ink.draw(drawing.edges);
    this.ink.renderOrder = 2;
    this.add(this.mesh, this.ink);
  }

  get middle(): readonly [number, number, number] {
    const { x = 0, y = 0, z = 0 } = this.mesh.geometry.boundingSphere?.center ?? {};
    return [x, y, z];
  }

  dress(palette: Palette, planes: Plane[] | null, lit: number): void {
    paintCloth(this.mesh.material, this.drawing.pattern, palette, lit);
    this.mesh.material.clippingPlanes = planes;
    this.ink.material.clippingPlanes = planes;
    this.ink.material.ink = lit > 0 ? palette.amber : palette.ink;
    this.ink.material.width = lit > 0 ? 2 : 1;
  }

  pick(ray: Ray, kept: (point: Vector3) => boolean): number | null {
    const { geometry } = this.mesh;
    if (!geometry.boundingSphere || !ray.intersectsSphere(geometry.boundingSphere)) return null;
    this.tree ??= new MeshBVH(geometry, { indirect: true });
    const hits = this.tree.raycast(ray, DoubleSide).sort((a, b) => a.distance - b.distance);
    return hits.find(({ point }) => kept(point))?.distance ?? null;
  }

  override dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
    this.ink.dispose();
  }
}
