import { describe, expect, test } from "vitest";
import { buildOutline } from "../../core/plan/build-outline.ts";
import type { OutlineSpec } from "../../core/project/schema.ts";
import { refused } from "./arbitrary-outlines.ts";

type Point = [number, number];
const box: Point[] = [
  [0, 0],
  [8000, 0],
  [8000, 3500],
  [0, 3500],
];
const ell = {
  kind: "ell",
  ...{ length: 10000, width: 5000, cutLength: 4000, cutWidth: 2000 },
  ...{ cutAt: "deep-left" as const, cornerRadius: 300, reflexRadius: 300 },
} as const;

/** The figure of a sentence that says what would work. */
const figure = (sentence: string) => Number(/([\d.]+) mm/.exec(sentence)?.[1]);

describe("an outline that cannot be built is refused with a figure that works", () => {
  test("corners that do not fit on a side", () => {
    const spec = { kind: "rectangle", length: 7000, width: 3100, cornerRadius: 1700 } as const;
    const [refusal] = refused(spec);
    expect(refusal).toMatchObject({ path: "shell.outline.cornerRadius", value: 1700 });
    expect(figure(refusal.wouldWork)).toBe(1550);
    expect(buildOutline({ ...spec, cornerRadius: figure(refusal.wouldWork) }).ok).toBe(true);
  });

  test("four corners, each with its own figure, that fit together", () => {
    const cornerRadius: [number, number, number, number] = [2000, 1777, 300, 2500];
    const refusals = refused({ kind: "rectangle", length: 7000, width: 3100, cornerRadius });
    expect(refusals.map((one) => one.path)).toEqual([0, 3].map((i) => `shell.outline.cornerRadius[${i}]`));
    const fitted = [...cornerRadius] as typeof cornerRadius;
    for (const { path, wouldWork } of refusals) fitted[Number(/\d/.exec(path)?.[0])] = figure(wouldWork);
    expect(buildOutline({ kind: "rectangle", length: 7000, width: 3100, cornerRadius: fitted }).ok).toBe(
      true,
    );
  });

  test("a stadium wider than long", () => {
    const [refusal] = refused({ kind: "stadium", length: 3000, width: 3200.07 });
    expect(refusal.path).toBe("shell.outline.width");
    expect(buildOutline({ kind: "stadium", length: 3000, width: figure(refusal.wouldWork) }).ok).toBe(true);
    expect(refusal.wouldWork).toContain("3200.1 mm");
  });

  test("corners beside a round end", () => {
    const ended = { kind: "round-ended", roundEnd: "deep" } as const;
    const tooRound = { ...ended, length: 8000, width: 3000, cornerRadius: 1600 };
    expect(figure(refused(tooRound)[0].wouldWork)).toBe(1500);
    const tooShort = { ...ended, length: 3000, width: 5000, cornerRadius: 700 };
    expect(figure(refused(tooShort)[0].wouldWork)).toBe(500);
    expect(buildOutline({ ...tooShort, cornerRadius: 500 }).ok).toBe(true);
    const noRoom = { ...ended, length: 3000, width: 6000, cornerRadius: 300 };
    expect(figure(refused(noRoom)[0].wouldWork)).toBe(3300);
    expect(buildOutline({ ...noRoom, length: 3300 }).ok).toBe(true);
  });

  test("an L whose cut is as large as the pool, and one whose corners overlap", () => {
    const refusals = refused({ ...ell, cutLength: 11000, cutWidth: 4600 });
    expect(refusals.map((one) => [one.path, figure(one.wouldWork)])).toEqual([
      ["shell.outline.cutLength", 9400],
      ["shell.outline.cutWidth", 4400],
    ]);
    const overlapping = refused({ ...ell, cornerRadius: 1500, reflexRadius: 1000 });
    const fitted: Record<string, number> = {};
    for (const { path, wouldWork } of overlapping) fitted[path.split(".")[2]] = figure(wouldWork);
    expect(Object.keys(fitted).sort()).toEqual(["cornerRadius", "reflexRadius"]);
    expect(buildOutline({ ...ell, ...fitted }).ok).toBe(true);
  });

  test.each([
    [25, 500],
    [30, 3000],
    [700, 25],
    [1000, 26],
  ])(
    "an L of %d and %d mm is offered no radius that the project does not take",
    (cornerRadius, reflexRadius) => {
      const narrow = { ...ell, cutWidth: 350, cornerRadius, reflexRadius };
      const fitted: Record<string, number> = {};
      for (const { path, wouldWork } of refused(narrow)) {
        fitted[path.split(".")[2]] = figure(wouldWork);
        expect(figure(wouldWork)).toBeGreaterThanOrEqual(25);
      }
      expect(buildOutline({ ...narrow, ...fitted }).ok).toBe(true);
    },
  );

  test("polygon corners, one radius or many", () => {
    const [one] = refused({ kind: "polygon", points: box, cornerRadius: 2000 });
    expect(figure(one.wouldWork)).toBe(1750);
    const many = refused({ kind: "polygon", points: box, cornerRadius: [2000, 2000, 1999, 100] });
    expect(many.map((refusal) => refusal.path)).toEqual(
      [1, 2].map((i) => `shell.outline.cornerRadius[${i}]`),
    );
    const fitted = [2000, figure(many[0].wouldWork), figure(many[1].wouldWork), 100];
    expect(buildOutline({ kind: "polygon", points: box, cornerRadius: fitted }).ok).toBe(true);
  });
});

describe("refusals that name the place", () => {
  const paths = (spec: OutlineSpec) => refused(spec).map((refusal) => refusal.path);

  test("as many radii as points", () => {
    expect(paths({ kind: "polygon", points: box, cornerRadius: [100, 100, 100] })).toEqual([
      "shell.outline.cornerRadius",
    ]);
  });

  test("points given twice", () => {
    const twice: Point[] = [box[0], box[1], box[1], box[2], box[3]];
    expect(paths({ kind: "polygon", points: twice, cornerRadius: 100 })).toEqual(["shell.outline.points[2]"]);
    expect(paths({ kind: "freeform", points: [...box, box[0]] })).toEqual(["shell.outline.points[4]"]);
  });

  test("a side that doubles back", () => {
    const points: Point[] = [box[0], box[1], [4000, 0], box[2], box[3]];
    expect(paths({ kind: "polygon", points, cornerRadius: 100 })).toEqual(["shell.outline.points[1]"]);
  });

  test("outlines that cross or touch themselves", () => {
    const crossed: Point[] = [box[0], box[2], box[1], box[3]];
    expect(refused({ kind: "polygon", points: crossed, cornerRadius: 100 })[0].value).toBe(
      "side-1 and side-3",
    );
    expect(refused({ kind: "freeform", points: crossed }).at(-1)?.value).toMatch(/span-1 and span-3/);
    const spiked: Point[] = [...box, [0, 2500], [8300, 1750], [0, 1000]];
    const spike = refused({ kind: "polygon", points: spiked, cornerRadius: 25 }).at(-1);
    expect(spike?.why).toMatch(/side-2 and (side|corner)-[56] meet/);
  });

  test("a path that is not closed, has a kink, or a part without length", () => {
    const stadium = (bulge: number, end: Point): OutlineSpec => ({
      kind: "path",
      start: [0, 0],
      segments: [
        { kind: "line", to: [6000, 0] },
        { kind: "arc", to: [6000, 3000], bulge },
        { kind: "line", to: [0, 3000] },
        { kind: "arc", to: end, bulge: 1 },
      ],
    });
    expect(buildOutline(stadium(1, [0, 0])).ok).toBe(true);
    expect(buildOutline(stadium(1, [0, 0.005])).ok).toBe(true);
    expect(paths(stadium(1, [0, 20]))).toEqual(["shell.outline.segments[3].to"]);
    const kinked = refused(stadium(0.98, [0, 0]));
    expect(kinked.map((one) => one.path)).toEqual(["shell.outline.segments[1]", "shell.outline.segments[2]"]);
    expect(kinked[0].wouldWork).toContain("bulge 1.000000");
    // A segment that runs straight back would need an arc without an end.
    const back: OutlineSpec = {
      kind: "path",
      start: [0, 0],
      segments: [
        { kind: "line", to: [6000, 0] },
        { kind: "arc", to: [6000, 3000], bulge: 1 },
        { kind: "line", to: [0, 3000] },
        { kind: "line", to: [2000, 3000] },
        { kind: "arc", to: [0, 0], bulge: 1 },
      ],
    };
    const [turned] = refused(back).filter(({ path }) => path === "shell.outline.segments[3]");
    expect(turned.wouldWork).toBe("a turn of at most 0.5°, or put an arc that touches both between them");
    // 4·Δ/(1 + b²): a change of 0.004 in the bulge turns each end by 0.23°, which is let pass.
    expect(buildOutline(stadium(0.996, [0, 0])).ok).toBe(true);
    expect(paths(stadium(1, [0, 3000]))).toContain("shell.outline.segments[3].to");
  });

  test("sizes no shell has", () => {
    const small = box.map(([x, y]): Point => [x / 4, y / 4]);
    const refusals = refused({ kind: "polygon", points: small, cornerRadius: 100 });
    expect(refusals.map((one) => one.value)).toEqual([2000, 875]);
    expect(refusals[0].wouldWork).toContain("every x times 1.5");
    const great = box.map(([x, y]): Point => [2 * x, 2 * y]);
    expect(refused({ kind: "freeform", points: great }).length).toBeGreaterThanOrEqual(2);
  });

  test("arcs too tight to mould", () => {
    const oval: Point[] = [
      [0, 1500],
      [2000, 0],
      [6000, 0],
      [8000, 1500],
      [6000, 3200],
      [2000, 3200],
    ];
    expect(buildOutline({ kind: "freeform", points: oval }).ok).toBe(true);
    const pinched: Point[] = [...oval, [5, 1525], [1, 1515]];
    expect(refused({ kind: "freeform", points: pinched })[0].why).toMatch(
      /radius of only [\d.]+ mm in span-[678]/,
    );
  });
});
