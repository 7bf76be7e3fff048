import { Vector3 } from "three";
import type { Standing, View } from "../document/session.ts";
import type { ShellView } from "../worker/messages.ts";
import { standingMatrix } from "./standing.ts";

/** Where one stands for each view, as a direction from the middle of the shell. */
const directions: Record<View | "outside", readonly [number, number, number]> = {
  corner: [-0.62, -1, 0.62],
  plan: [0, -0.001, 1],
  side: [0, -1, 0.04],
  end: [-1, 0, 0.04],
  below: [-0.5, -1, -0.5],
  // As one would stand beside the pool before the ground is put back round it.
  outside: [-0.62, -1, 0.12],
};
/** Room left round the shell. */
const ROOM = 1.22;

/** A picture, and how much of it is covered at its head and its foot, px. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly head: number;
  readonly foot: number;
}

/** The corners of the box that holds the shell as it stands, mm. */
export function cornersOf(
  { size, flange }: Pick<ShellView, "size" | "flange">,
  standing: Standing,
): Vector3[] {
  const stand = standingMatrix(size, standing);
  return [-flange, size.length + flange].flatMap((x) =>
    [-1, 1].flatMap((side) =>
      [0, -size.depth].map((z) => new Vector3(x, side * (size.width / 2 + flange), z).applyMatrix4(stand)),
    ),
  );
}

/**
 * The nearest eye in a direction from which the whole shell is in the free part of the picture, and the point that it looks at: the middle
 * of the shell is seen in the middle of that part. `fovDeg`: the lens, upright.
 */
export function wholeShell(
  shell: Pick<ShellView, "size" | "flange">,
  standing: Standing,
  view: keyof typeof directions,
  fovDeg: number,
  { width, height, head, foot }: Picture,
): { readonly middle: Vector3; readonly eye: Vector3 } {
  const towards = new Vector3(...directions[view]).normalize();
  const right = new Vector3(0, 0, 1).cross(towards).normalize();
  const up = towards.clone().cross(right);
  const tan = Math.tan((fovDeg * Math.PI) / 360);
  const free = Math.max(1, height - head - foot) / height;
  /** How far above the middle of the picture that of its free part is, as a tangent. */
  const raised = ((foot - head) / height) * tan;
  const centre = new Vector3(0, 0, shell.size.depth / 2);
  const distance = Math.max(
    ...cornersOf(shell, standing).map((corner) => {
      const off = corner.sub(centre);
      const nearer = off.dot(towards);
      const across = (Math.abs(off.dot(right)) * ROOM * height) / (tan * width);
      // The eye is lowered by `raised` at the distance of the middle: what is nearer seems raised by less.
      const upright = (Math.abs(off.dot(up) + raised * nearer) * ROOM) / (tan * free);
      return nearer + Math.max(across, upright);
    }),
  );
  const middle = centre.addScaledVector(up, -raised * distance);
  return { middle, eye: middle.clone().addScaledVector(towards, distance) };
}
