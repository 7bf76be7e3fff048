import { Vector3 } from "three";
import { expect, test } from "vitest";
import { plyDoubts } from "../../core/cutting/band-doubts.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { FlatStrip } from "../../core/surface/strip.ts";
import { placeOf } from "../../renderer/scene/zone-place.ts";
import { drawZone } from "../../renderer/worker/drawing/draw-zone.ts";
import { demoProject } from "../project/demo-files.ts";

const project = demoProject("whimbrel-9");
const built = buildShell(project.shell, project.shop.laidThickness);
if (!built.ok) throw new Error("Whimbrel 9 cannot be built.");
const { zones } = layUp(project, built.shell);
const zoneOf = (id: string) => {
  const zone = zones.find((each) => each.id === id);
  if (!zone) throw new Error(`${id} is not laid.`);
  return zone;
};

test("a lap that is doubtful is shown where it lies on its band, and no more of the band than is round it", () => {
  const foot = zoneOf("foot");
  if (foot.kind !== "band") throw new Error("The foot has no band.");
  const drawing = drawZone(foot, project.shop);
  const { stations, left } = foot.strip;
  for (const at of [700, 4321, 12_000, 20_480]) {
    // What core says of a lap that is short on one edge.
    const short = { midLengthMm: 50, leftLengthMm: 12, rightLengthMm: 50 } as FlatStrip;
    const [doubt] = plyDoubts([{ at, from: at - 25, to: at + 25 }], () => short, [], [], project.shop);
    expect(doubt.atMm).toBe(at);
    const { middle, size } = placeOf(drawing, at);
    // Of each sample the first point of the left side lies on the band's line.
    const off = Array.from(stations, (station) => Math.abs(station - at));
    const nearest = off.indexOf(Math.min(...off));
    const onLine = new Vector3().fromArray(left.points, 3 * nearest * left.columns);
    expect(middle.distanceTo(onLine)).toBeLessThan(400);
    expect(size).toBeLessThan(2000);
  }
});

test("a zone that is shown as a whole is all of its drawing; one that runs all round faces to no side", () => {
  const shown = (id: string) => placeOf(drawZone(zoneOf(id), project.shop), null);
  const foot = shown("foot");
  const { outline } = project.shell;
  expect(foot.size).toBeGreaterThan("length" in outline ? outline.length - 1500 : Infinity);
  expect(Math.hypot(foot.outwards.x, foot.outwards.y)).toBeLessThan(0.1);
  // Right is −y: there the wall's back faces.
  const { outwards } = shown("ribs-right");
  expect(outwards.y).toBeLessThan(-0.1);
});
