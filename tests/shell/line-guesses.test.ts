import { expect, test } from "vitest";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { guessLines } from "../../core/shell/line-guesses.ts";
import { findTransitions } from "../../core/shell/transitions.ts";
import { nearestOn } from "../../renderer/tools/line-place.ts";
import { demoProject } from "../project/demo-files.ts";

const crisp = (kind: string) => kind !== "step" && kind !== "foot";

test("lines from a coarse mesh lie along the exact ones, of the same kind, and leave none of them out", () => {
  const built = buildShell(demoProject("dunlin-4").shell);
  if (!built.ok) throw new Error("The demo cannot be built.");
  const { shell } = built;
  const mesh = meshSurface(shell.field, { quality: "preview", edgeMm: 190, chordMm: 30 });
  const guesses = guessLines(shell.faces, mesh).filter(({ lengthMm }) => lengthMm > 150);
  const exact = findTransitions(shell, mesh).transitions.filter(({ kind }) => kind !== "stretch");
  const off = (point: readonly number[], lines: readonly { points: Float32Array; closed: boolean }[]) =>
    Math.min(...lines.map(({ points, closed }) => nearestOn(points, closed, point).distance));
  for (const sharp of [true, false]) {
    const ours = guesses
      .filter(({ kind }) => crisp(kind) === sharp)
      .map(({ points, closed }) => ({ points: Float32Array.from(points), closed }));
    const theirs = exact
      .filter(({ kind, lengthMm }) => crisp(kind) === sharp && lengthMm > 150)
      .map(({ curve, closed }) => ({ points: Float32Array.from(curve.points), closed }));
    for (const [some, others] of [
      [ours, theirs],
      [theirs, ours],
    ])
      for (const { points } of some)
        for (let i = 0; i < points.length; i += 3 * 25)
          expect(off([points[i], points[i + 1], points[i + 2]], others)).toBeLessThan(120);
  }
});
