import { expect, test } from "vitest";
import { buildShell } from "../../core/shell/build-shell.ts";
import { fittingOutlines } from "../../renderer/worker/fitting-outlines.ts";
import { demoNames, demoProject } from "../project/demo-files.ts";

test.each(demoNames)("every fitting of %s is drawn on the gel coat, in its size", (name) => {
  const { shell: spec } = demoProject(name);
  const built = buildShell(spec);
  if (!built.ok) throw new Error("The demo cannot be built.");
  const outlines = fittingOutlines(built.shell);
  expect(outlines.map(({ id }) => id)).toEqual(spec.fittings.map(({ id }) => id));
  for (const [i, { id, outline }] of outlines.entries()) {
    const { width, height, at } = spec.fittings[i];
    const points = Array.from({ length: outline.length / 3 }, (_, p) =>
      Array.from(outline.subarray(3 * p, 3 * p + 3)),
    );
    for (const [x, y, z] of points)
      expect(Math.abs(built.shell.field.evaluate(x, y, z)), id).toBeLessThan(1e-3);
    // Upright extent on a wall, extent across on the floor: never less than the opening, a draft or slope adds a little.
    const k = "floor" in at ? 1 : 2;
    const extent = Math.max(...points.map((p) => p[k])) - Math.min(...points.map((p) => p[k]));
    expect(extent / height, id).toBeCloseTo(1, 2);
    const perimeter = points.reduce((sum, p, n) => {
      const q = points[(n + 1) % points.length];
      return sum + Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
    }, 0);
    const flat = width === height ? Math.PI * width : 2 * (width + height);
    expect(perimeter / flat, id).toBeGreaterThan(0.95);
    expect(perimeter / flat, id).toBeLessThan(1.05);
  }
});
