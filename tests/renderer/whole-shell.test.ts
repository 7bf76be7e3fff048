import { PerspectiveCamera } from "three";
import { describe, expect, test } from "vitest";
import { cornersOf, wholeShell } from "../../renderer/scene/whole-shell.ts";

const shell = { size: { length: 9100, width: 3800, depth: 1943 }, flange: 150 };
const FOV = 26;

/** Where the corners of the shell are seen, px from the upper left of the picture. */
function seen(
  view: Parameters<typeof wholeShell>[2],
  picture: Parameters<typeof wholeShell>[4],
  standing: "pool-up" | "plug-up",
) {
  const { middle, eye } = wholeShell(shell, standing, view, FOV, picture);
  const camera = new PerspectiveCamera(FOV, picture.width / picture.height, 100, 120_000);
  camera.up.set(0, 0, 1);
  camera.position.copy(eye);
  camera.lookAt(middle);
  camera.updateMatrixWorld();
  return cornersOf(shell, standing).map((corner) => {
    const { x, y } = corner.project(camera);
    return { x: ((x + 1) / 2) * picture.width, y: ((1 - y) / 2) * picture.height };
  });
}

// The pictures of a window of 1440 × 900, of 1024 × 640, and of one at 200 % zoom, with the strips that lie over them.
describe.each([
  { width: 1004, height: 636, head: 44, foot: 40 },
  { width: 588, height: 376, head: 40, foot: 38 },
  { width: 390, height: 160, head: 40, foot: 32 },
  { width: 588, height: 258, head: 0, foot: 38 },
  { width: 588, height: 258, head: 0, foot: 0 },
])(
  "a picture of $width × $height px, covered by $head px at its head and $foot px at its foot",
  (picture) => {
    test.each(["corner", "plan", "side", "end", "below", "outside"] as const)(
      "has the whole shell in its free part, as large as it can be: %s",
      (view) => {
        for (const standing of ["pool-up", "plug-up"] as const) {
          const corners = seen(view, picture, standing);
          const low = picture.height - picture.foot;
          for (const { x, y } of corners) {
            expect(x).toBeGreaterThan(0);
            expect(x).toBeLessThan(picture.width);
            expect(y).toBeGreaterThan(picture.head);
            expect(y).toBeLessThan(low);
          }
          // With a room of 1.22 the corner that decides is this far from the middle of the free part.
          const across = Math.max(...corners.map(({ x }) => Math.abs(x / picture.width - 0.5) * 2));
          const middle = (picture.head + low) / 2;
          const upright = Math.max(
            ...corners.map(({ y }) => Math.abs(y - middle) / ((low - picture.head) / 2)),
          );
          expect(Math.max(across, upright)).toBeCloseTo(1 / 1.22, 2);
        }
      },
    );
  },
);
