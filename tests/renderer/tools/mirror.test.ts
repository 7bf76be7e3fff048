import { beforeAll, expect, test } from "vitest";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { copiedTo } from "../../../renderer/tools/copy-to.ts";
import { mirrored } from "../../../renderer/tools/mirror.ts";
import { isLaid, named } from "../../../renderer/tools/zone-edits.ts";
import { targetsFor } from "../../../renderer/tools/zone-names.ts";
import { demoProject } from "../../project/demo-files.ts";
import { groundOf } from "./ground.ts";

const demo = demoProject("whimbrel-9");
let known: Awaited<ReturnType<typeof groundOf>>;
beforeAll(async () => {
  known = await groundOf(demo);
});
const rib = (run: string, part: number): ZoneSpec => ({
  kind: "rib",
  id: "z",
  at: { run, part },
  top: 60,
  foot: { kind: "over", onto: 100 },
  material: "rib-strip",
});

test("a rib on the right stands on the left at the same distance from the shallow end", () => {
  // The runs go counter-clockwise: right away from the shallow end, left back to it.
  const twin = mirrored(rib("right", 0.25), known.ground);
  expect(twin).toMatchObject({ kind: "rib", at: { run: "left" } });
  if (twin?.kind === "rib" && "part" in twin.at) expect(twin.at.part).toBeCloseTo(0.75, 4);
});

test("mirrored twice a zone is where it was, and core lays it with the same length and area", () => {
  const movable = demo.layup.filter((zone) => mirrored(zone, known.ground));
  expect(movable.length).toBeGreaterThan(4);
  for (const zone of movable) {
    const twin = mirrored(zone, known.ground);
    if (!twin) continue;
    const [own] = named({ layup: [] }, [twin]);
    const [here, there] = known.trials.lay(demo, [zone, own]);
    if (!here.ok || !there.ok) throw new Error(`${zone.id} finds no place.`);
    // Fittings are not the same on both sides, and bands and ribs keep off them or move aside.
    if (zone.kind !== "rib-row") expect(there.zone.lengthMm / here.zone.lengthMm).toBeCloseTo(1, 2);
    const back = mirrored(own, known.ground);
    const [again] = back ? known.trials.lay(demo, named({ layup: [] }, [back])) : [];
    if (!again?.ok) throw new Error(`${zone.id} does not come back.`);
    expect(again.zone.lengthMm / here.zone.lengthMm).toBeCloseTo(1, 2);
  }
});

test("what lies across the centre line, or all round, has no other side", () => {
  for (const id of ["foot", "pad-ledge", "gussets-ledge", "stiffener-deep"]) {
    const zone = demo.layup.find((each) => each.id === id);
    if (!zone) throw new Error(`The demo has no ${id}.`);
    expect(mirrored(zone, known.ground)).toBeNull();
  }
});

test("a part of the foot is mirrored about the line's middle", () => {
  const foot = demo.layup.find(({ id }) => id === "foot");
  if (foot?.kind !== "band") throw new Error("The demo has no band on its foot.");
  const twin = mirrored({ ...foot, stretch: { from: 0.2, to: 0.3 } }, known.ground);
  if (twin?.kind !== "band") throw new Error("It has no twin.");
  expect(twin.stretch?.from).toBeCloseTo(0.7, 2);
  expect(twin.stretch?.to).toBeCloseTo(0.8, 2);
});

test("a zone copied to another place keeps its figures and lies there", () => {
  const pad = demo.layup.find(({ id }) => id === "pad-tread-1");
  if (pad?.kind !== "pad") throw new Error("The demo has no pad on its first tread.");
  const targets = targetsFor(pad, demo, known.ground.lines).map(({ id }) => id);
  expect(targets).toContain("steps/tread-2");
  expect(targets).not.toContain(pad.on);
  const copy = copiedTo(pad, "steps/tread-2");
  expect(copy).toMatchObject({ on: "steps/tread-2", margin: pad.margin });
  expect(known.trials.lay(demo, named(demo, [copy]))[0].ok).toBe(true);
  expect(isLaid(demo.layup, { ...pad, id: "other" } as ZoneSpec)).toBe(true);
});
