import { type BufferGeometry, Mesh, Ray, Vector3 } from "three";
import { expect, test } from "vitest";
import { ShellFigure } from "../../renderer/scene/shell-figure.ts";
import type { ShellView } from "../../renderer/worker/messages.ts";

const SIDE = 1000;

/** A level square of so many cells a side, as a shell. */
function square(cells: number, full: boolean): ShellView {
  const corners = cells + 1;
  const places = Array.from({ length: corners * corners }, (_, v) => [v % corners, Math.floor(v / corners)]);
  return {
    full,
    faces: [{ id: "floor", kind: "floor", feature: "" }],
    adjustments: [],
    positions: Float32Array.from(places.flatMap(([i, j]) => [(i * SIDE) / cells, (j * SIDE) / cells, 0])),
    normals: Float32Array.from(places.flatMap(() => [0, 0, 1])),
    triangles: Uint32Array.from(
      Array.from({ length: cells * cells }, (_, c) => {
        const v = (c % cells) + corners * Math.floor(c / cells);
        return [v, v + 1, v + corners, v + 1, v + corners + 1, v + corners];
      }).flat(),
    ),
    owner: new Uint16Array(places.length),
    size: { length: SIDE, width: SIDE, depth: 0 },
    rim: new Float32Array(0),
    rimLengthMm: 4 * SIDE,
    flange: 0,
    fittings: [],
  };
}

/** Triangles of the meshes that the figure draws its surface from, inside and outside. */
function drawn(figure: ShellFigure): (number | undefined)[] {
  const geometries: BufferGeometry[] = figure.children
    .filter((child) => child instanceof Mesh && child.geometry.getAttribute("owner"))
    .map((child) => (child as Mesh).geometry);
  return geometries.map((geometry) => (geometry.getIndex()?.count ?? 0) / 3);
}

test("the shell is drawn from its full mesh, and from the one before while it is a draft", () => {
  const figure = new ShellFigure();
  figure.setShell(square(4, false));
  expect([figure.hasFine, ...drawn(figure)]).toEqual([false, 32, 32]);
  figure.setShell(square(16, true));
  expect([figure.hasFine, ...drawn(figure)]).toEqual([true, 512, 512]);
  figure.draft = true;
  expect(drawn(figure)).toEqual([32, 32]);
  // It is pointed at on the same mesh, whichever is drawn.
  const down = new Ray(new Vector3(300, 420, 500), new Vector3(0, 0, -1));
  const inDraft = figure.pick(down, () => true);
  figure.draft = false;
  expect(drawn(figure)).toEqual([512, 512]);
  expect(figure.pick(down, () => true)).toEqual(inDraft);
  expect(inDraft?.point.distanceTo(new Vector3(300, 420, 0))).toBeLessThan(1e-6);
});

test("another shell takes the place of both meshes, and lets go of them", () => {
  const figure = new ShellFigure();
  const gone: number[] = [];
  const watch = () => {
    const [mesh] = figure.children;
    const { geometry } = mesh as Mesh;
    const count = (geometry.getIndex()?.count ?? 0) / 3;
    geometry.addEventListener("dispose", () => gone.push(count));
  };
  figure.setShell(square(4, false));
  watch();
  figure.setShell(square(16, true));
  watch();
  figure.setShell(square(6, false));
  expect([figure.hasFine, ...drawn(figure)]).toEqual([false, 72, 72]);
  expect(gone.sort((a, b) => a - b)).toEqual([32, 512]);
});
