import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  Group,
  Mesh,
  MeshBasicMaterial,
  type Plane,
} from "three";
import type { LaidZoneView } from "../worker/results.ts";
import { InkLines, joinSegments } from "./ink/ink-line.ts";
import type { Palette } from "./palette.ts";

/** What is about to be laid: a wash of amber where it would lie, and its edges, seen through whatever hides them. */
export class OfferFigure extends Group {
  private readonly wash = new MeshBasicMaterial({
    transparent: true,
    opacity: 0.42,
    side: DoubleSide,
    depthWrite: false,
    polygonOffset: true,
    polygonOffsetFactor: -1,
    polygonOffsetUnits: -8,
  });
  private readonly ink = new InkLines(2, 0);
  private meshes: Mesh<BufferGeometry, MeshBasicMaterial>[] = [];

  constructor() {
    super();
    this.ink.material.depthTest = false;
    this.ink.material.cover = 0.9;
    this.ink.renderOrder = 7;
    this.add(this.ink);
  }

  show(zones: readonly LaidZoneView[]): void {
    for (const mesh of this.meshes) {
      this.remove(mesh);
      mesh.geometry.dispose();
    }
    this.meshes = zones.map(({ drawing }) => {
      const geometry = new BufferGeometry();
      geometry.setAttribute("position", new BufferAttribute(drawing.positions, 3));
      geometry.setIndex(new BufferAttribute(drawing.triangles, 1));
      const mesh = new Mesh(geometry, this.wash);
      mesh.renderOrder = 5;
      return mesh;
    });
    if (this.meshes.length > 0) this.add(...this.meshes);
    // One zone is seen whole, through whatever hides it; of many only the near side, or nothing could be made out.
    this.ink.material.depthTest = zones.length > 1;
    this.ink.draw(joinSegments(zones.map(({ drawing }) => drawing.edges)));
  }

  paint(palette: Palette): void {
    this.wash.color = palette.amber;
    this.ink.material.ink = palette.amber;
  }

  setSection(world: Plane | null): void {
    const planes = world ? [world] : null;
    this.wash.clippingPlanes = planes;
    this.ink.material.clippingPlanes = planes;
  }

  override dispose(): void {
    this.show([]);
    this.wash.dispose();
    this.ink.dispose();
  }
}
