/** The wall on its way from the rim to the floor: corners that must grow, and walls that close in on each other. */
import { describe, expect, test } from "vitest";
import type { ShellSpec } from "../../core/project/schema.ts";
import { basin, built, refusals } from "./built.ts";
import { faultsOf } from "./check-random.ts";
import { dice } from "./random-shell.ts";

const refusal = (spec: ShellSpec) => refusals(spec)[0];
const figure = (text: string, words: RegExp): number => Number(words.exec(text)?.[1]);
const withCove = (spec: ShellSpec, cove: number): ShellSpec => ({ ...spec, radii: { ...spec.radii, cove } });

describe("a waist in a freeform pool", () => {
  const waist = (across: number): ShellSpec => {
    const half: [number, number][] = [
      [800, -1200],
      [2400, -1200],
      [3200, -across / 2],
      [4000, -1200],
      [5600, -1200],
      [6400, 0],
    ];
    const back = half.slice(0, 5).reverse();
    const points: [number, number][] = [[0, 0], ...half, ...back.map(([x, y]): [number, number] => [x, -y])];
    return { ...basin, outline: { kind: "freeform", points } };
  };
  test.each([40, 200, 300, 500])("of %s mm leaves no floor and is refused", (across) => {
    const { why, wouldWork } = refusal(waist(across));
    expect(Number(/pool is (\d+) mm across/.exec(why)?.[1])).toBeCloseTo(across, -1);
    const enough = figure(wouldWork, /at least (\d+) mm across/);
    // On each side 1200·tan 3° and 150/cos 3°, and 100 mm of floor between.
    const delta = Math.PI / 60;
    expect(enough).toBe(Math.ceil(2 * (1200 * Math.tan(delta) + 150 / Math.cos(delta)) + 100));
  });
  test("is built when it is as wide as was named", () => {
    const enough = figure(refusal(waist(300)).wouldWork, /at least (\d+) mm across/);
    expect(faultsOf(built(waist(enough + 2)))).toEqual([]);
  });
  test("with a bench on both sides that leaves a slot between its own risers is refused with the slot", () => {
    const bench = (width: number): ShellSpec => ({
      ...waist(700),
      features: [{ kind: "bench", id: "bench", place: { kind: "round" }, depth: 500, width }],
    });
    // 700 less both widths, and 2·700·tan 3° of draft.
    const { path, value, why } = refusal(bench(270));
    expect([path, value]).toEqual(["shell.features[0].width", 270]);
    expect(why).toMatch(/two stretches of bench\/riser a slot of (8|9)\d mm/);
    expect(faultsOf(built(bench(240)))).toEqual([]);
  });
  test("is built with the cove named, and not with 1 mm more", () => {
    const cove = figure(refusal(waist(450)).wouldWork, /cove of at most (\d+) mm/);
    expect(faultsOf(built(withCove(waist(450), cove)))).toEqual([]);
    expect(refusal(withCove(waist(450), cove + 1)).why).toContain("across");
  });
});

test("an outline that wriggles more tightly than the cove can follow is refused with the cove that can", () => {
  const d = dice(1);
  const points = Array.from({ length: 60 }, (_, i): [number, number] => {
    const a = (2 * Math.PI * i) / 60;
    const off = () => d.between(-15, 15);
    return [Math.round(3500 * Math.cos(a) + off()), Math.round(1700 * Math.sin(a) + off())];
  });
  const spec: ShellSpec = { ...basin, outline: { kind: "freeform", points } };
  const { path, why, wouldWork } = refusal(spec);
  expect(path).toBe("shell.outline.points");
  expect(why).toContain("find no room between their neighbours");
  const cove = figure(wouldWork, /cove of at most (\d+) mm/);
  expect(faultsOf(built(withCove(spec, cove)))).toEqual([]);
});

test("a corner that the draft takes up before it has grown is refused with the radius that lasts", () => {
  const deep = (cornerRadius: number): ShellSpec => ({
    ...basin,
    outline: { kind: "rectangle", length: 3000, width: 2000, cornerRadius },
    floor: { ...basin.floor, stations: [{ at: 0, depth: 2800 }] },
    draftDeg: 10,
  });
  const { path, value, wouldWork } = refusal(deep(25));
  expect([path, value]).toEqual(["shell.outline.cornerRadius", 25]);
  const radius = figure(wouldWork, /a radius of (\d+) mm/);
  expect(faultsOf(built(deep(radius)))).toEqual([]);
  expect(refusal(deep(radius - 1)).path).toBe(path);
  const draftDeg = figure(wouldWork, /draft of at most (\d+)°/);
  expect(faultsOf(built({ ...deep(25), draftDeg }))).toEqual([]);
});

test("an L with corners as tight as they come, a bench all round and steps is whole", () => {
  const ell: ShellSpec = {
    ...basin,
    outline: {
      kind: "ell",
      length: 8000,
      width: 4500,
      cutLength: 3500,
      cutWidth: 1800,
      cutAt: "deep-left",
      cornerRadius: 25,
      reflexRadius: 180,
    },
    features: [
      { kind: "bench", id: "bench", place: { kind: "round" }, depth: 500, width: 450 },
      {
        kind: "steps",
        id: "steps",
        place: { kind: "end", end: "shallow" },
        treads: [
          { depth: 300, going: 600 },
          { depth: 700, going: 350 },
        ],
      },
    ],
  };
  expect(faultsOf(built(ell))).toEqual([]);
});
