import { Group, type Plane, type Vector3 } from "three";
import type { LineView } from "../worker/messages.ts";
import { InkLines, joinSegments, segmentsOf } from "./ink/ink-line.ts";
import type { Palette } from "./palette.ts";

/** The feature lines of the shell: noses and rim crisp, the middles of re-entrant radii fine. One can be lit, whole. */
export class LinesFigure extends Group {
  private readonly crisp = new InkLines(1.2, 2.5);
  private readonly fine = new InkLines(0.8, 2.5);
  private readonly lit = new InkLines(3.5, 0);
  private readonly all = [this.crisp, this.fine, this.lit];
  private lines: readonly LineView[] = [];

  constructor() {
    super();
    this.add(...this.all);
    this.crisp.renderOrder = 1;
    this.fine.renderOrder = 1;
    this.lit.renderOrder = 6;
    this.fine.material.cover = 0.55;
    // The lit line shows its whole course, through whatever hides it.
    this.lit.material.depthTest = false;
    this.lit.material.transparent = true;
  }

  setLines(lines: readonly LineView[]): void {
    this.lines = lines;
    const drawn = (crisp: boolean) =>
      // Stretches of the foot lie on the foot itself.
      joinSegments(
        lines
          .filter(({ kind }) => kind !== "stretch" && crisp === (kind !== "step" && kind !== "foot"))
          .map((line) => segmentsOf(line.inside, line.closed)),
      );
    this.crisp.draw(drawn(true));
    this.fine.draw(drawn(false));
  }

  paint(palette: Palette): void {
    this.crisp.material.ink = palette.ink;
    this.fine.material.ink = palette.ink;
    this.lit.material.ink = palette.amber;
  }

  light(id: string | null): void {
    const line = this.lines.find((each) => each.id === id);
    this.lit.draw(line ? segmentsOf(line.inside, line.closed) : new Float32Array(0));
  }

  setSection(world: Plane | null): void {
    for (const ink of this.all) ink.material.clippingPlanes = world ? [world] : null;
  }

  /** The line nearest to a point, if one runs within `reach` mm. Whole lines go before stretches of them. */
  near(point: Vector3, reach: number): LineView | null {
    let best = reach * reach;
    let found: LineView | null = null;
    for (const line of this.lines) {
      if (line.kind === "stretch") continue;
      const p = line.inside;
      const count = p.length / 3;
      for (let i = 0; i < (line.closed ? count : count - 1); i++) {
        const distance = squareDistance(point, p, 3 * i, 3 * ((i + 1) % count));
        if (distance >= best) continue;
        best = distance;
        found = line;
      }
    }
    return found;
  }

  override dispose(): void {
    for (const ink of this.all) ink.dispose();
  }
}

/** Square of the distance from a point to the segment between two points of a list. */
function squareDistance(at: Vector3, p: Float32Array, a: number, b: number): number {
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const vx = at.x - p[a];
  const vy = at.y - p[a + 1];
  const vz = at.z - p[a + 2];
  const square = ux * ux + uy * uy + uz * uz;
  const t = square > 0 ? Math.min(1, Math.max(0, (ux * vx + uy * vy + uz * vz) / square)) : 0;
  return (vx - t * ux) ** 2 + (vy - t * uy) ** 2 + (vz - t * uz) ** 2;
}
