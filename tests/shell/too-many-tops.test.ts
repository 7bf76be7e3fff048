import { expect, test } from "vitest";
import type { FeatureSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoProject } from "../project/demo-files.ts";

const { shell } = demoProject("dunlin-4");

/** Two flights of Dunlin 4 more, of so many treads: with its own steps and benches there are six more tops. */
function withFlights(first: number, second: number) {
  const flights: FeatureSpec[] = [
    {
      kind: "steps",
      id: "end-steps",
      place: { kind: "end", end: "deep" },
      treads: [
        { depth: 335, going: 160 },
        { depth: 670, going: 480 },
        { depth: 965, going: 335 },
        { depth: 1195, going: 315 },
      ].slice(0, first),
    },
    {
      kind: "steps",
      id: "side-steps",
      place: {
        kind: "along",
        from: { run: "left", distance: 2630 },
        to: { run: "left", part: 0.28 },
        endRadius: 365,
      },
      treads: [
        { depth: 180, going: 375 },
        { depth: 435, going: 310 },
        { depth: 630, going: 250 },
        { depth: 740, going: 265 },
      ].slice(0, second),
    },
  ];
  const radii = { ...shell.radii, cove: 40, step: 50, nose: 30, pairs: [] };
  return { ...shell, draftDeg: 0, radii, fittings: [], features: [...shell.features, ...flights] };
}

test("more treads and benches than can be rounded against each other are refused, and the number named works", () => {
  const built = buildShell(withFlights(4, 4));
  if (built.ok) throw new Error("14 tops were built");
  expect(built.refusals).toEqual([
    expect.objectContaining({
      path: "shell.features",
      value: 14,
      wouldWork: "at most 12 in all, each tread of a flight counted",
    }),
  ]);
  const fewer = buildShell(withFlights(4, 2));
  expect(fewer.ok ? [] : fewer.refusals).toEqual([]);
});
