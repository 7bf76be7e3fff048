import { Vector3 } from "three";
import { expect, test } from "vitest";
import { cutOf, sectionPoint, standingMatrix } from "../../renderer/scene/standing.ts";
import type { ShellView } from "../../renderer/worker/messages.ts";

const size = { length: 9100, width: 3800, depth: 1950 };
const shell = { size, flange: 150 } as ShellView;

test("pool-up the floor stands on the ground, plug-up the rim does, left and right kept as they are seen", () => {
  const stood = (standing: "pool-up" | "plug-up", x: number, y: number, z: number) =>
    new Vector3(x, y, z).applyMatrix4(standingMatrix(size, standing)).toArray();
  const close = (found: number[], wanted: number[]) => {
    for (const [k, c] of wanted.entries()) expect(found[k]).toBeCloseTo(c, 6);
  };
  close(stood("pool-up", 0, 0, 0), [-4550, 0, 1950]);
  close(stood("pool-up", 9100, 1900, -1950), [4550, 1900, 0]);
  close(stood("plug-up", 0, 0, 0), [-4550, 0, 0]);
  close(stood("plug-up", 9100, 1900, -1950), [4550, -1900, 1950]);
  // Turned over, not mirrored: a right-handed shell stays right-handed.
  for (const standing of ["pool-up", "plug-up"] as const)
    expect(standingMatrix(size, standing).determinant()).toBeCloseTo(1, 9);
});

test.each(["along", "across", "level"] as const)(
  "a section %s runs from one end of the shell to the other",
  (axis) => {
    const span = { along: [-150, 9250], across: [-2050, 2050], level: [0, 1950] }[axis];
    expect([0, 1].map((at) => cutOf({ axis, at }, shell).d)).toEqual(span);
    for (const at of [0, 0.25, 0.5, 1]) {
      const { n, d } = cutOf({ axis, at }, shell);
      const [x, y, z] = sectionPoint({ axis, at }, shell);
      expect(n[0] * x + n[1] * y + n[2] * z).toBeCloseTo(d, 9);
    }
  },
);
