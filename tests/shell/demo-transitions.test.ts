import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { findTransitions, type Transitions } from "../../core/shell/transitions.ts";
import { contestBetween, contestValue } from "../../core/surface/contest.ts";
import { offsetField } from "../../core/surface/field.ts";

const folder = new URL("../../assets/demo/", import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith(".ribband.json"));
const OFFSET = 6;

describe.each(files)("the transitions of %s", (file) => {
  let shell: Shell;
  let found: Transitions;

  beforeAll(() => {
    const built = buildShell(JSON.parse(readFileSync(new URL(file, folder), "utf8")).shell);
    if (!built.ok) throw new Error(`${file}: ${JSON.stringify(built.refusals)}`);
    shell = built.shell;
    const mesh = meshSurface(shell.field, { quality: "preview", edgeMm: 110, chordMm: 8 });
    found = findTransitions(shell, mesh, OFFSET);
  }, 60000);

  it("have one foot and one rim, closed, counter-clockwise from the centre line at the shallow end", () => {
    for (const kind of ["foot", "rim"] as const) {
      const [loop, ...more] = found.transitions.filter((t) => t.kind === kind);
      expect(more).toEqual([]);
      expect([loop.id, loop.closed]).toEqual([kind, true]);
      expect(loop.curve.points[1]).toBeCloseTo(0, 6);
      expect(loop.curve.tangents[1]).toBeLessThan(0);
      expect(loop.curve.points[0]).toBeLessThan(shell.outline.extent.length / 2);
    }
  });

  it("have names of their own, and every face that is seen is on one of them", () => {
    const ids = found.transitions.map((t) => t.id);
    expect(new Set(ids).size).toBe(ids.length);
    const named = new Set(found.transitions.flatMap((t) => t.between));
    for (const face of shell.faces) {
      const hidden = shell.adjustments.some((a) => a.id.startsWith(face.id));
      if (!hidden) expect(named).toContain(face.id);
    }
  });

  it("fit together: stretches make up the foot, and every open end lies on another line", () => {
    const foot = found.transitions.find((t) => t.id === "foot")!;
    const stretches = found.transitions.filter((t) => t.kind === "stretch");
    const left = foot.lengthMm - stretches.reduce((sum, t) => sum + t.lengthMm, 0);
    // What the stretches leave of the foot are the slivers.
    const slivers = found.slivers.reduce((sum, s) => sum + s.lengthMm, 0);
    expect(left).toBeGreaterThan(-1e-6);
    expect(left).toBeLessThan(slivers + 1e-6);
    for (const t of found.transitions) {
      if (t.closed) continue;
      expect([t.id, t.junctions.length >= 2]).toEqual([t.id, true]);
      for (const j of [t.junctions[0], t.junctions[t.junctions.length - 1]]) {
        const others = found.transitions.filter((o) => o !== t).flatMap((o) => o.junctions);
        const off = Math.min(...others.map((o) => Math.hypot(...o.point.map((v, k) => v - j.point[k]))));
        expect([t.id, off < 5]).toEqual([t.id, true]);
      }
    }
  });

  it("lie on the lay-up surface, in the middle of their blends", () => {
    const field = offsetField(shell.field, OFFSET);
    for (const t of found.transitions) {
      if (!t.exact) {
        // A gap of some millimetres is told with its place; more would be a fault.
        expect([t.id, t.reason]).toEqual([t.id, expect.stringMatching(/^no exact line over [0-9] mm near/)]);
        continue;
      }
      const contest = contestBetween(field, ...t.sides);
      const { points } = t.curve;
      const every = 3 * Math.max(1, Math.floor(points.length / 3 / 40));
      for (let i = 0; i < points.length; i += every) {
        const [x, y, z] = points.subarray(i, i + 3);
        expect(Math.abs(field.evaluate(x, y, z))).toBeLessThan(1e-6);
        expect([t.id, Math.abs(contestValue(field, contest, x, y, z)) < 1e-5]).toEqual([t.id, true]);
      }
    }
  });
});
