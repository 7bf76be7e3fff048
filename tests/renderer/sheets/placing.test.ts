import { expect, test } from "vitest";
import { pointAt } from "../../../core/plan/point-at.ts";
import { checkProject } from "../../../core/project/parse.ts";
import type { Project, RimPlace } from "../../../core/project/schema.ts";
import { work } from "../../../renderer/document/history.ts";
import { type Drawn, drawShell } from "../../../renderer/places/drawing-office/sheets/drawn-shell.ts";
import {
  addingPoint,
  halfwayAfter,
  isPointed,
  pointBefore,
  removingPoint,
} from "../../../renderer/places/drawing-office/sheets/outline-points.ts";
import {
  type Addable,
  featureKinds,
  fittingKinds,
  offerAt,
  offersInTurn,
  putting,
} from "../../../renderer/places/drawing-office/sheets/placing.ts";
import { stationOf } from "../../../renderer/tools/rim-places.ts";
import { demoNames, demoProject } from "../../project/demo-files.ts";

function drawn({ shell }: Project): Drawn {
  const made = drawShell(shell);
  if (!made) throw new Error("The outline cannot be built.");
  return made;
}

const offered = (kind: Addable, x: number, y: number, project = demoProject("whimbrel-9")) =>
  offerAt(project.shell, drawn(project).outline, kind, { x, y });

test("what is put in follows from where one points", () => {
  const half = 1900;
  expect(offered("bench", 5000, -half + 50)).toMatchObject({
    where: "along right",
    spec: { kind: "bench", place: { kind: "along", from: { run: "right" }, to: { run: "right" } } },
  });
  expect(offered("steps", 9000, 0).spec).toMatchObject({ place: { kind: "end", end: "deep" } });
  expect(offered("ledge", 100, 0).spec).toMatchObject({ place: { kind: "end", end: "shallow" } });
  expect(offered("steps", 9000, half - 100).spec).toMatchObject({
    place: { kind: "corner", corner: "deep-left" },
  });
  expect(offered("seat", 4000, half).spec).toMatchObject({ place: { kind: "along", from: { run: "left" } } });
  expect(offered("light", 4000, -half).spec).toMatchObject({ at: { wall: { run: "right" } } });
  expect(offered("suction", 4550, 950).spec).toMatchObject({
    at: { floor: { alongPart: 0.5, acrossPart: 0.75 } },
  });
});

test("where the shell itself is pointed at, a light or a return comes to that depth; a skimmer stays at the water line", () => {
  const project = demoProject("whimbrel-9");
  const { outline } = drawn(project);
  const depthOf = (kind: "light" | "skimmer" | "return", depth: number) => {
    const { spec } = offerAt(project.shell, outline, kind, { x: 4000, y: -1900 }, depth);
    return "at" in spec && "wall" in spec.at ? spec.at.depth : Number.NaN;
  };
  expect(depthOf("light", 714)).toBe(710);
  // On the coping there is no depth to speak of: the usual one.
  expect(depthOf("light", 3)).toBe(400);
  // Below the radius of 15 mm at the rim it has its own half height.
  expect(depthOf("light", 221)).toBe(220);
  project.shell.coping = { ...project.shell.coping, rimRadius: 80, flange: 200 };
  expect(depthOf("return", 61)).toBe(110);
  expect(depthOf("skimmer", 714)).toBe(130);
});

test("a bench comes to lie about the place that is pointed at, and within its side", () => {
  const project = demoProject("whimbrel-9");
  const { outline } = drawn(project);
  const middleOf = (x: number) => {
    const { spec } = offerAt(project.shell, outline, "bench", { x, y: -1900 });
    if (!("place" in spec) || spec.place.kind !== "along") throw new Error("It does not lie along the rim.");
    const at = (place: RimPlace) => pointAt(outline.chain, stationOf(outline, place) ?? Number.NaN).x;
    return [at(spec.place.from), at(spec.place.to)];
  };
  const [from, to] = middleOf(5000);
  expect((from + to) / 2).toBeCloseTo(5000, -1);
  expect(to - from).toBeCloseTo(1800, -1);
  expect(middleOf(200)[0]).toBeCloseTo(150, -1);
});

test.each(demoNames)("everything that is offered on %s is a valid project with one more part", (name) => {
  const project = demoProject(name);
  const { outline } = drawn(project);
  for (const kind of [...featureKinds, ...fittingKinds]) {
    const offers = offersInTurn(project.shell, outline, kind);
    expect(offers.length, kind).toBeGreaterThan(0);
    expect(new Set(offers.map((each) => JSON.stringify(each))).size).toBe(offers.length);
    for (const offer of offers) {
      const { shell } = work(project, putting(offer));
      expect(checkProject({ ...project, shell }).ok).toBe(true);
      const more = shell.features.length + shell.fittings.length;
      expect(more).toBe(project.shell.features.length + project.shell.fittings.length + 1);
    }
  }
});

/** Where every place along the rim lies in the figures' own plan: of features, fittings and ribs. */
function rimSpots(project: Project) {
  const { outline, moved } = drawn(project);
  const places = [
    ...project.shell.features.flatMap(({ place }) => (place.kind === "along" ? [place.from, place.to] : [])),
    ...project.shell.fittings.flatMap(({ at }) => ("wall" in at ? [at.wall] : [])),
    ...project.layup.flatMap((zone) =>
      zone.kind === "rib-row" ? [zone.from, zone.to] : zone.kind === "rib" ? [zone.at] : [],
    ),
  ];
  return places.map((place) => {
    const { x, y } = pointAt(outline.chain, stationOf(outline, place) ?? Number.NaN);
    return { x: x - moved.x, y: y - moved.y };
  });
}

test("a new point leaves all that is placed by the rim where it lay, and so does its removal", () => {
  const project = demoProject("turnstone-7");
  const before = rimSpots(project);
  expect(before.length).toBeGreaterThan(6);
  const made = drawn(project);
  const { outline } = project.shell;
  if (!isPointed(outline)) throw new Error("Turnstone 7 has no free points.");
  outline.points.forEach((_, i) => {
    const spot = halfwayAfter(made, i);
    if (!spot) throw new Error(`Point ${i} has no span behind it.`);
    expect(pointBefore(outline, made, spot)).toBe(i);
    const more = work(project, addingPoint(project, made, i, spot) ?? (() => {}));
    expect(checkProject(more).ok).toBe(true);
    expect(more.shell.outline).toMatchObject({ points: { length: outline.points.length + 1 } });
    const after = rimSpots(more);
    // The rim itself is drawn anew through the point: its tangents there and at the neighbours are others than before.
    before.forEach((spotBefore, k) => {
      expect(Math.hypot(after[k].x - spotBefore.x, after[k].y - spotBefore.y)).toBeLessThan(150);
    });
    const back = work(more, removingPoint(more, drawn(more), i + 1) ?? (() => {}));
    expect(back.shell.outline).toEqual(project.shell.outline);
    // Going to the nearest place of a rim some millimetres off and back again is not quite the same way.
    rimSpots(back).forEach((spotBack, k) => {
      expect(Math.hypot(spotBack.x - before[k].x, spotBack.y - before[k].y)).toBeLessThan(15);
    });
  });
});

test("a polygon gains a corner with a radius of its own, whichever way round it is drawn", () => {
  for (const turned of [false, true]) {
    const points: [number, number][] = [
      [0, -2000],
      [8000, -2000],
      [8000, 2000],
      [0, 2000],
    ];
    const project = work(demoProject("whimbrel-9"), (draft) => {
      draft.shell.outline = {
        kind: "polygon",
        points: turned ? points.reverse() : points,
        cornerRadius: [200, 300, 400, 500],
      };
      draft.shell.radii.pairs = [];
      draft.shell.features = [
        {
          kind: "steps",
          id: "steps",
          place: { kind: "corner", corner: "corner-4", shape: "round" },
          treads: [{ depth: 300, going: 600 }],
        },
      ];
    });
    const made = drawn(project);
    const { outline } = project.shell;
    if (!isPointed(outline)) throw new Error("It is a polygon.");
    const behind = pointBefore(outline, made, { x: 4000, y: -2000 });
    const more = work(project, addingPoint(project, made, behind, { x: 4000, y: -2000 }) ?? (() => {}));
    expect(checkProject(more).ok).toBe(true);
    expect(drawn(more).outline.extent).toEqual(made.outline.extent);
    // The corner of the steps has the same point as before, under the number that it has now.
    const corner = more.shell.features[0].place;
    const at = corner.kind === "corner" ? Number(corner.corner.slice("corner-".length)) - 1 : -1;
    expect(isPointed(more.shell.outline) && more.shell.outline.points[at]).toEqual(outline.points[3]);
  }
});
