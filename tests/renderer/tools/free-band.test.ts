import { expect, test } from "vitest";
import { freeBandTool, nudged, withPoint } from "../../../renderer/tools/free-band.ts";
import { fewPoints } from "../../../renderer/tools/stroke-path.ts";
import type { Aim } from "../../../renderer/tools/tool.ts";
import { named } from "../../../renderer/tools/zone-edits.ts";
import { demoProject } from "../../project/demo-files.ts";
import { groundOf } from "./ground.ts";

const demo = demoProject("dunlin-4");
const aim = (x: number, y: number, face = "floor"): Aim => ({ point: [x, y, -1200], face });

test("a straight stroke keeps its ends alone, a bent one the bend too", () => {
  const straight = Array.from({ length: 50 }, (_, i) => aim(i * 20, 0));
  expect(fewPoints(straight)).toEqual([straight[0], straight[49]]);
  const bent = [...straight, ...Array.from({ length: 50 }, (_, i) => aim(980, 20 * (i + 1)))];
  const few = fewPoints(bent);
  expect(few).toHaveLength(3);
  expect(Math.hypot(few[1].point[0] - 980, few[1].point[1])).toBeLessThan(61);
});

test("what is left out of a round stroke lies within 25 mm of what is kept", () => {
  const round = Array.from({ length: 200 }, (_, i) => aim(900 * Math.cos(i / 60), 900 * Math.sin(i / 60)));
  const few = fewPoints(round);
  expect(few.length).toBeLessThan(20);
  for (let i = 1; i < few.length; i++) {
    const [a, b] = [few[i - 1].point, few[i].point];
    const chord = Math.hypot(a[0] - b[0], a[1] - b[1]);
    // Rise of an arc of radius 900 over its chord.
    expect(900 - Math.sqrt(900 ** 2 - (chord / 2) ** 2)).toBeLessThan(26);
  }
});

test("a stroke over the floor becomes a band of the brush's width that core lays", async () => {
  const { ground, trials } = await groundOf(demo);
  const path = Array.from({ length: 30 }, (_, i) => aim(2300 + 20 * i, -300 + 10 * i));
  const place = await freeBandTool.along?.(ground, path[0], path[29], path);
  if (place?.zone.kind !== "stroke") throw new Error("No band was offered.");
  expect(place.zone.width).toBe(300);
  const [tried] = trials.lay(demo, named(demo, [place.zone]));
  if (!tried.ok) throw new Error(tried.why);
  expect(tried.zone.areaMm2 / (300 * tried.zone.lengthMm)).toBeCloseTo(1, 1);
  const [first] = trials.points(demo, place.zone.path);
  expect(Math.hypot((first?.[0] ?? 0) - 2300, (first?.[1] ?? 0) + 300)).toBeLessThan(1);

  const moved = withPoint(
    { ...place.zone, id: "z" },
    0,
    nudged(place.zone.path[0], [-100, 0], ground.outline, [1000, 1000]),
  );
  expect(moved.path.slice(1)).toEqual(place.zone.path.slice(1));
  expect(moved.path[0]).not.toEqual(place.zone.path[0]);
});
