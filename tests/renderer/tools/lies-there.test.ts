import { expect, test } from "vitest";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { liesThere } from "../../../renderer/tools/lies-there.ts";

const band = (id: string, on: string, stretch?: { from: number; to: number }): ZoneSpec => ({
  kind: "band",
  id,
  on,
  ...(stretch && { stretch }),
  halfWidths: [200, 200],
  plies: 1,
  material: "roving",
});
const pad = (id: string, on: string): ZoneSpec => ({ kind: "pad", id, on, margin: 50, material: "core" });

test("tells the zones that a new one would lie on, and no others", () => {
  const layup = [
    band("all", "foot"),
    band("over-start", "rim", { from: 0.9, to: 0.1 }),
    band("begun-there", "steps/top|steps/riser", { from: 0.3, to: 0.3 }),
    pad("pad", "ledge/top"),
  ];
  const there = (zone: ZoneSpec) => liesThere(layup, zone);
  expect(there(band("new", "foot", { from: 0.2, to: 0.3 }))).toEqual(["all"]);
  expect(there(band("new", "rim", { from: 0.95, to: 0.97 }))).toEqual(["over-start"]);
  expect(there(band("new", "rim", { from: 0.05, to: 0.5 }))).toEqual(["over-start"]);
  // End to end is not on top.
  expect(there(band("new", "rim", { from: 0.1, to: 0.9 }))).toEqual([]);
  expect(there(band("new", "steps/top|steps/riser", { from: 0.7, to: 0.8 }))).toEqual(["begun-there"]);
  expect(there(pad("new", "ledge/top"))).toEqual(["pad"]);
  expect(there(pad("new", "seat/top"))).toEqual([]);
  // Itself is no other.
  expect(there(layup[0])).toEqual([]);
});
