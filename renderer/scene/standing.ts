import { Euler, Matrix4 } from "three";
import type { Axis, Section, Standing } from "../document/session.ts";
import type { ShellView } from "../worker/messages.ts";

/**
 * Where the shell stands in the scene: middle over the origin, ground at z = 0. Pool-up it stands on its floor, plug-up upside
 * down on its rim, as it does in the shop.
 */
export function standingMatrix(size: ShellView["size"], standing: Standing): Matrix4 {
  const centred = new Matrix4().makeTranslation(-size.length / 2, 0, standing === "pool-up" ? size.depth : 0);
  if (standing === "pool-up") return centred;
  return new Matrix4().makeRotationFromEuler(new Euler(Math.PI, 0, 0)).multiply(centred);
}

/** A section in the shell's own coordinates: the points with n·p > d are kept. */
export interface Cut {
  readonly n: readonly [number, number, number];
  readonly d: number;
}

const directions: Record<Axis, readonly [number, number, number]> = {
  along: [1, 0, 0],
  across: [0, 1, 0],
  level: [0, 0, -1],
};

export function cutOf({ axis, at }: Section, { size, flange }: ShellView): Cut {
  const n = directions[axis];
  if (axis === "along") return { n, d: -flange + at * (size.length + 2 * flange) };
  if (axis === "across") return { n, d: (at - 0.5) * (size.width + 2 * flange) };
  return { n, d: at * size.depth };
}

/** Where the knob of a section stands, in the shell's own coordinates: on the cut, beside the rim. */
export function sectionPoint(section: Section, shell: ShellView): readonly [number, number, number] {
  const { size, flange } = shell;
  const { d } = cutOf(section, shell);
  if (section.axis === "along") return [d, -size.width / 2 - flange, 0];
  if (section.axis === "across") return [-flange, d, 0];
  return [-flange, -size.width / 2 - flange, -d];
}
