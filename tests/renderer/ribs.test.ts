import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkProject } from "../../core/project/parse.ts";
import { widenBand } from "../../renderer/tools/band-edges.ts";
import { layRib, layRow, moveRowEnd, type RowZone, slideRib } from "../../renderer/tools/ribs.ts";
import { outlineOf, placeAt, stationOf } from "../../renderer/tools/rim-places.ts";
import { named } from "../../renderer/tools/zone-edits.ts";
import { demoProject } from "../project/demo-files.ts";

const demo = demoProject("whimbrel-9");
const outline = outlineOf(demo.shell.outline)!;
const { length } = outline.chain;
/** Whimbrel's rim: half an end, a corner of 150 mm, then the right side of 8800 mm. Closed form. */
const rightFrom = 1900 - 150 + (Math.PI / 2) * 150;

const turnOff = (a: number, b: number) => Math.abs(a - b - Math.round((a - b) / length) * length);

describe("places of the rim", () => {
  test("come back to their station to a hundredth of a millimetre, by part and by distance", () => {
    const station = fc.double({ min: -length, max: 2 * length, noNaN: true });
    fc.assert(
      fc.property(station, fc.boolean(), (s, byDistance) => {
        const like = byDistance ? { run: "left", distance: 10 } : undefined;
        const place = placeAt(outline, s, like);
        expect("distance" in place).toBe(byDistance);
        expect(turnOff(stationOf(outline, place)!, s)).toBeLessThan(0.011);
      }),
    );
  });

  test("are none on a run that the outline does not have", () => {
    expect(stationOf(outline, { run: "span-4", part: 0.5 })).toBeNull();
  });
});

describe("a rib", () => {
  test("is laid by the house rules where one points", () => {
    const rib = layRib(demo, outline, rightFrom + 4400);
    expect(rib).toEqual({
      kind: "rib",
      at: { run: "right", part: 0.5 },
      top: 60,
      foot: { kind: "over", onto: 150 },
      material: "rib-strip",
    });
    const project = { ...demo, layup: [...demo.layup, ...named(demo, [rib])] };
    expect(checkProject(project)).toMatchObject({ ok: true });
  });

  test("that stops at the cove keeps its bevel off it", () => {
    const rules = { ...demo.rules, ribs: { ...demo.rules.ribs, overCove: false } };
    // 20 mm at 40°: 20/tan 40° = 23.8 mm.
    expect(layRib({ ...demo, rules }, outline, 3000)).toMatchObject({ foot: { kind: "to", clear: 24 } });
  });

  test("slides along the rim, also round a corner, and back to where it was", () => {
    const [rib] = named(demo, [layRib(demo, outline, rightFrom + 4400)]);
    if (rib.kind !== "rib") throw new Error("No rib.");
    const moved = slideRib(rib, outline, 4400 + 75 * Math.PI + 1000);
    expect(moved?.at).toMatchObject({ run: "deep" });
    expect(stationOf(outline, moved!.at)! - (rightFrom + 8800 + 75 * Math.PI)).toBeCloseTo(1000, 1);
    expect(slideRib(moved!, outline, -4400 - 75 * Math.PI - 1000)?.at).toEqual(rib.at);
  });
});

describe("a row of ribs", () => {
  test("runs counter-clockwise whichever way it was drawn", () => {
    const row = layRow(demo, outline, rightFrom + 6600, rightFrom + 2200);
    expect(row).toMatchObject({
      kind: "rib-row",
      from: { run: "right", part: 0.25 },
      to: { run: "right", part: 0.75 },
      pitch: 600,
      clear: 150,
    });
  });

  test("that is no longer than a click is one rib, and one along a whole side names that side alone", () => {
    expect(layRow(demo, outline, 4000, 4040)).toMatchObject({ kind: "rib" });
    const whole = layRow(demo, outline, rightFrom, rightFrom + 8800);
    expect(whole).toMatchObject({ from: { run: "right", part: 0 }, to: { run: "right", part: 1 } });
  });

  test("moves by one end, which does not pass the other", () => {
    const row = demo.layup.find(({ id }) => id === "ribs-right") as RowZone;
    const longer = moveRowEnd(row, outline, "from", rightFrom + 880);
    expect(longer.from).toEqual({ run: "right", part: 0.1 });
    expect(longer.to).toEqual(row.to);
    expect(moveRowEnd(row, outline, "from", rightFrom + 8790)).toBe(row);
    expect(moveRowEnd(row, outline, "to", rightFrom)).toBe(row);
  });

  test("slides whole", () => {
    const row = demo.layup.find(({ id }) => id === "ribs-right") as RowZone;
    const moved = slideRib(row, outline, -440)!;
    expect(moved.from).toEqual({ run: "right", part: 0.28 });
    expect(moved.to).toEqual({ run: "right", part: 0.95 });
  });
});

test("a band's half width keeps to whole millimetres within what a project allows", () => {
  const band = demo.layup.find(({ id }) => id === "foot");
  if (band?.kind !== "band") throw new Error("No band.");
  expect(widenBand(band, 0, 333.4).halfWidths).toEqual([333, 310]);
  expect(widenBand(band, 1, 3).halfWidths).toEqual([310, 20]);
  expect(widenBand(band, 1, 9999).halfWidths).toEqual([310, 1500]);
});
