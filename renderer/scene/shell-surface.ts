import { BufferAttribute, BufferGeometry, DoubleSide, type Ray } from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { ShellView } from "../worker/messages.ts";
import { openEdges } from "./ink/contour.ts";

/** One mesh of a shell as the graphics card takes it, with what is found out of it once and only when it is asked for. */
export class ShellSurface {
  readonly view: ShellView;
  readonly geometry = new BufferGeometry();
  private edge: Float32Array | null = null;
  private tree: MeshBVH | null = null;

  constructor(view: ShellView) {
    this.view = view;
    this.geometry.setAttribute("position", new BufferAttribute(view.positions, 3));
    this.geometry.setAttribute("normal", new BufferAttribute(view.normals, 3));
    this.geometry.setAttribute("owner", new BufferAttribute(new Float32Array(view.owner), 1));
    this.geometry.setIndex(new BufferAttribute(view.triangles, 1));
    this.geometry.computeBoundingSphere();
  }

  /** The open edge, as segments. */
  get openEdge(): Float32Array {
    this.edge ??= openEdges(this.view);
    return this.edge;
  }

  /** All places that a ray meets, the nearest first. */
  hits(ray: Ray) {
    this.tree ??= new MeshBVH(this.geometry, { indirect: true });
    return this.tree.raycast(ray, DoubleSide).sort((a, b) => a.distance - b.distance);
  }

  dispose(): void {
    this.geometry.dispose();
  }
}
