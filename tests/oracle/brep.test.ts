/**
 * The kernel against an independent one: the same shells as boundary-representation solids, their walls lofted, their coves
 * filleted. Area out to the end of the coping and volume up to its top.
 */
import { beforeAll, describe, expect, it } from "vitest";
import type { ShellSpec } from "../../core/project/schema.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { builtAsAsked } from "../published/basins.ts";
import { mmOff, partOff, printLine } from "../published/figures.ts";
import { measureAt } from "../published/measure-at.ts";
import { basinForms } from "../published/side-profile.ts";
import { loadBrep } from "./brep.ts";
import { bean, flat, flatFigures, plain, rectangle, withFeatures } from "./layouts.ts";
import { type SolidShell, solidShell } from "./solid-shell.ts";
import { meshOfSolid, stagesOf, timed } from "./timed.ts";

const SLOW = 120_000;
beforeAll(loadBrep, SLOW);

/** How far the vertices of the solid's mesh lie from our zero set, mm: tells where on the shell the two disagree. */
function farthest(shell: Shell, { ground }: SolidShell): { off: number; at: readonly number[] } {
  const { vertices } = ground.mesh({ tolerance: 1, angularTolerance: 0.2 });
  let worst = { off: 0, at: [0, 0, 0] };
  for (let i = 0; i < vertices.length; i += 3) {
    const [x, y, z] = vertices.slice(i, i + 3);
    // The slab's own sides and bottom are no part of the shell.
    if ((shell.field.edge?.evaluate(x, y, z) ?? -1) > 1e-3) continue;
    const off = Math.abs(shell.field.evaluate(x, y, z));
    if (off > worst.off) worst = { off, at: [x, y, z] };
  }
  return worst;
}

/** Solids cost seconds each: one made to be compared also tells how long it took to build and mesh, ms of the processor. */
const solids = new Map<ShellSpec, { readonly solid: SolidShell; readonly ms: number }>();

function solidOf(spec: ShellSpec): { readonly solid: SolidShell; readonly ms: number } {
  let made = solids.get(spec);
  if (!made) {
    const built = timed(() => solidShell(spec));
    const meshed = timed(() => meshOfSolid(built.result));
    made = { solid: built.result, ms: built.ms + meshed.ms };
    solids.set(spec, made);
  }
  return made;
}

interface Bounds {
  /** Of area and volume, as parts. */
  readonly part: number;
  /** Of the distance of the solid's vertices from our surface, mm. */
  readonly mm: number;
}

function compare(name: string, spec: ShellSpec, { part, mm }: Bounds, offset = 0): void {
  const shell = builtAsAsked(spec);
  const ours = measureAt(shell, offset, { quality: "full" });
  const solid = offset > 0 ? solidShell(spec, offset) : solidOf(spec).solid;
  const what = offset > 0 ? `${name}, ${offset} mm out` : name;
  expect(partOff(`${what}: area`, ours.areaMm2 / 1e6, solid.areaMm2 / 1e6, "m²")).toBeLessThan(part);
  expect(partOff(`${what}: volume`, ours.volumeMm3 / 1e9, solid.volumeMm3 / 1e9, "m³")).toBeLessThan(part);
  if (offset > 0) return;
  const { off, at } = farthest(shell, solid);
  expect(mmOff(`${what}: farthest vertex, at (${at.map(Math.round).join(", ")})`, off, 0)).toBeLessThan(mm);
}

describe("the oracle itself", () => {
  it.each([
    ["rectangle", rectangle],
    ["kidney", bean],
  ] as const)(
    "a flat-floored %s is its closed form to ten figures, on the gel coat and 6 mm out",
    (name, outline) => {
      for (const offset of [0, 6]) {
        const exact = basinForms(outline, { ...flatFigures, offset });
        const solid = solidShell(flat[name], offset);
        expect(Math.abs(solid.areaMm2 / exact.area - 1)).toBeLessThan(1e-10);
        expect(Math.abs(solid.volumeMm3 / exact.volume - 1)).toBeLessThan(1e-10);
      }
    },
    SLOW,
  );
});

describe("sloped, drafted, coved basins, within 0.02 %", () => {
  // The other kernel's fillets are approximations: on cones over a slope they stray by up to 0.09 mm from the true ball,
  // where ours keeps to it within 0.002 mm (rolling-ball.test.ts).
  const bounds = { part: 2e-4, mm: 0.12 };
  it.each(plain)("%s", (name, spec) => compare(name, spec, bounds), SLOW);

  it.each([plain[0], plain[2]])(
    "%s, on the laminate 6 mm out",
    (name, spec) => compare(name, spec, bounds, 6),
    SLOW,
  );
});

describe("with three full-width steps and a ledge, within 0.1 %", () => {
  // Where a nose of 30 mm runs slantwise into a curved wall, a ball of 50 mm rolls over its own way: the surface has a ridge
  // there, and the other kernel's fillet folds, up to 1.2 mm off (ours keeps to the ball within 0.02 mm,
  // rolling-ball.test.ts). Its volume of the folded solid differs from that of its own mesh by 0.004 %.
  const bounds = { part: 1e-3, mm: 2 };
  it.each(withFeatures)("%s", (name, spec) => compare(`${name} with steps`, spec, bounds), SLOW);

  it(
    "on the laminate 6 mm out",
    () => {
      const [name, spec] = withFeatures[0];
      compare(`${name} with steps`, spec, bounds, 6);
    },
    SLOW,
  );
});

describe("each stage takes at most a third of the time of building and meshing the solid", () => {
  it(
    "on a kidney with three steps and a ledge",
    () => {
      const [, spec] = withFeatures[1];
      const there = solidOf(spec).ms;
      for (const { name, run } of stagesOf(spec).ours) {
        // The least of some runs: the first ones are the engine's, which is still compiling.
        const ms = Math.min(...Array.from({ length: 4 }, () => timed(run).ms));
        const times = there / ms;
        printLine(
          `${name}: ${ms.toFixed(0)} ms, the solid ${there.toFixed(0)} ms: ${times.toFixed(1)} times`,
        );
        expect(times).toBeGreaterThan(3);
      }
    },
    SLOW,
  );
});
