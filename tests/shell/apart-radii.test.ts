import { describe, expect, test } from "vitest";
import { defaultProject } from "../../core/project/defaults.ts";
import { largestBeside } from "../../core/shell/apart-radii.ts";
import { buildShell } from "../../core/shell/build-shell.ts";

describe("the largest ball beside a nose over two unequal fillets", () => {
  test("is the ellipse's of two cylinders of one radius, whose sharpest radius is R·sin 45°", () => {
    for (const [nose, r] of [
      [30, 50],
      [10, 80],
    ])
      expect(largestBeside(nose, r, r) / 0.95).toBeCloseTo(Math.min(r, (nose + r) * Math.SQRT1_2 - nose), 9);
  });

  test("is bounded by the smaller fillet where the nose turns slowly, whichever that is", () => {
    expect(largestBeside(30, 250, 20)).toBeCloseTo(19, 9);
    expect(largestBeside(30, 20, 250)).toBeCloseTo(19, 9);
  });

  test("agrees with the bend of the nose's way by three points close together", () => {
    // Where both fillets' distances are −n: the way in (w, out from the riser, up from the tread).
    const [nose, tread, riser] = [30, 60, 50];
    const at = (w: number) =>
      [tread, riser].map((r) => r - Math.sqrt((nose + r) ** 2 - (r - w) ** 2)).concat(w);
    const side = (a: number[], b: number[]) => Math.hypot(...a.map((x, i) => x - b[i]));
    let sharpest = Infinity;
    for (let w = riser - 0.01; w > -nose + 0.02; w -= 0.25) {
      const [p, q, r] = [at(w - 0.01), at(w), at(w + 0.01)];
      const [a, b, c] = [side(p, q), side(q, r), side(p, r)];
      // Circle through three points: abc / 4A, A by Heron in Kahan's stable form.
      const [x, y, z] = [a, b, c].sort((u, v) => v - u);
      const area = Math.sqrt((x + (y + z)) * (z - (x - y)) * (z + (x - y)) * (x + (y - z))) / 4;
      sharpest = Math.min(sharpest, (a * b * c) / (4 * area));
    }
    expect(largestBeside(nose, tread, riser) / 0.95 + nose).toBeCloseTo(sharpest, 1);
  });
});

test("a ledge with 60 mm from tread to wall and 50 mm from riser to wall is whole where its nose turns", () => {
  const { shell } = defaultProject();
  const built = buildShell({
    ...shell,
    features: [
      { kind: "ledge", id: "ledge", place: { kind: "end", end: "shallow" }, depth: 400, reach: 1500 },
    ],
    radii: { ...shell.radii, pairs: [{ between: ["wall", "ledge/top"], radius: 60 }] },
  });
  if (!built.ok) throw new Error(built.refusals[0].why);
  const field = built.shell.field.within(1488, 1679, -405, 60, 60);
  // A common ball of 47.5 mm touched the hollow of the nose in two places: here the surface stood 0.32 mm too high.
  for (let i = 0; i <= 200; i++) {
    const before = field.evaluate(1488.309, 1678.685, -405.2 + 0.003 * i);
    const after = field.evaluate(1488.309, 1678.685, -405.2 + 0.003 * (i + 1));
    expect(Math.abs(after - before)).toBeLessThan(0.004);
  }
});
