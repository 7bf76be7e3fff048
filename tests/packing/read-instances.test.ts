import { describe, expect, test } from "vitest";
import { packMarker } from "../../core/packing/pack-marker.ts";
import { orderOf } from "./instances.ts";
import { provedLength } from "./prove.ts";
import { readInstances } from "./read-instances.ts";

type Corners = readonly (readonly [unknown, unknown])[];

const square: Corners = [
  [0, 0],
  [2, 0],
  [2, 2],
  [0, 2],
];
const item = (change: object = {}, data: Corners = square, type = "simple_polygon") => {
  return { demand: 2, allowed_orientations: [0, 90], shape: { type, data }, ...change };
};
const irregular = (...items: unknown[]) => ({ name: "squares", strip_height: 4, items });
const rectangles = (...items: unknown[]) => ({ name: "boards", strip_width: 10, items });

const read = (value: unknown) => readInstances(JSON.stringify(value), "file");
const one = (value: unknown) => {
  const [entry] = read(value);
  if ("problem" in entry) throw new Error(entry.problem);
  return entry.instance;
};

describe("instances are read", () => {
  test("from a text that begins with a byte order mark, and with any line ends", () => {
    const text = JSON.stringify(irregular(item()), null, 2).replaceAll("\n", "\r\n");
    expect(readInstances(`\uFEFF${text}`, "file")).toEqual(read(irregular(item())));
    expect(one(irregular(item()))).toMatchObject({
      name: "squares",
      width: 4,
      items: [{ demand: 2, turns: [0, 90] }],
    });
  });

  test("from a list of them, under the file's name where they have none", () => {
    const nameless = { ...rectangles({ w: 1, h: 2 }), name: undefined };
    const names = (value: unknown) => read(value).map(({ name }) => name);
    expect(names({ instances: [nameless, irregular(item())] })).toEqual(["file-0", "squares"]);
    expect(names([nameless])).toEqual(["file"]);
    expect(names(nameless)).toEqual(["file"]);
  });

  test("with those quarter turns that an item may take", () => {
    const turns = (allowed_orientations: unknown) =>
      one(irregular(item({ allowed_orientations }))).items[0].turns;
    expect(turns([-90, 45, 360])).toEqual([0, 270]);
    expect(turns(null)).toEqual([0, 90, 180, 270]);
    expect(turns(undefined)).toEqual([0, 90, 180, 270]);
  });

  test("with decimals made whole, since a tenth is not exact in binary figures", () => {
    const decimal = { ...rectangles({ w: 0.3, h: 0.1 }, { w: 1, h: 0.7 }), strip_width: 1.1 };
    const { width, parts, items } = one(decimal);
    expect([width, parts]).toEqual([11, 10]);
    expect(items.map(({ outline }) => outline)).toEqual([
      [0, 0, 1, 0, 1, 3, 0, 3],
      [0, 0, 7, 0, 7, 10, 0, 10],
    ]);
  });

  test("without what is wanted no times, however it is drawn", () => {
    const { items } = one(irregular(item({ demand: 0 }, [[0, 0], [1, 1], [2, 2]]), item())); // biome-ignore format: a list of corners
    expect(items).toHaveLength(1);
  });
});

const crossing: Corners = [
  [0, 0],
  [2, 2],
  [2, 0],
  [0, 2],
];
const tall: Corners = [
  [0, 0],
  [1, 0],
  [1, 5],
];

test.each<[string, unknown, string]>([
  ["no items", irregular(), "items is a list of 0 entries; a list of one item or more is wanted."],
  ["no demand", irregular(item({ demand: 0 })), "items asks for nothing, every demand being 0;"],
  ["half a piece", irregular(item({ demand: 2.5 })), "items[0].demand is 2.5; a whole number from 0 to 5000"],
  [
    "too many pieces",
    irregular(item({ demand: 3000 }), item({ demand: 3000 })),
    "items asks for 6000 pieces;",
  ],
  ["no quarter turn", irregular(item({ allowed_orientations: [45] })), "items[0] may be turned by 45° only;"],
  [
    "no turn at all",
    irregular(item({ allowed_orientations: [] })),
    "items[0].allowed_orientations is a list of 0",
  ],
  ["two corners", irregular(item({}, square.slice(2))), "items[0].shape.data is a list of 2 entries;"],
  ["a corner in words", irregular(item({}, [...square, [0, "one"]])), 'items[0].shape.data[4][1] is "one";'],
  [
    "an outline that crosses itself",
    irregular(item({}, crossing)),
    "items[0] has an outline that crosses itself",
  ],
  [
    "a piece too tall",
    irregular(item({ allowed_orientations: [0, 180] }, tall)),
    "items[0] is 5 across in every turn",
  ],
  ["a corner far off", irregular(item({}, [...square, [-1e9, 0]])), "items[0] has a corner far off;"],
  [
    "an outline with holes",
    irregular(item({}, square, "polygon")),
    'items[0].shape.type is "polygon"; "simple_polygon"',
  ],
  [
    "no shape",
    irregular({ demand: 1 }),
    "items[0].shape is missing; an object with type and data is wanted.",
  ],
  [
    "a strip of no width",
    { ...rectangles({ w: 1, h: 1 }), strip_width: 0 },
    "strip_width is 0; a number above 0",
  ],
  ["a rectangle of no width", rectangles({ w: 0, h: 1 }), "items[0].w is 0; a number above 0 is wanted."],
  [
    "a rectangle too wide",
    rectangles({ w: 11, h: 12 }),
    "items[0] is 11 across in every turn that it may take; 10 at",
  ],
  ["bars", { capacity: 3, items: [1] }, "The file is for npm run bench -- bars;"],
  ["nothing known", [7], "[0] is no packing instance; an object with items, and strip_height,"],
  ["an empty list", { instances: [] }, "instances is an empty list; one instance or more is wanted."],
])("%s is told in a sentence, by its field", (_, value, sentence) => {
  const [entry] = read(value);
  expect("problem" in entry && entry.problem).toContain(sentence);
  // The tall piece may lie down.
  expect("instance" in read(irregular(item({}, tall)))[0]).toBe(true);
});

test("corners that lie on no grid do not overlap in any plan, the first ones for straight cuts included", () => {
  const thirds = Array.from({ length: 12 }, (_, k) => ({ w: (1 + (k % 3)) / 3, h: Math.sqrt(2 + k) }));
  const instance = one({ ...rectangles(...thirds), strip_width: 1.5 });
  const skew: Corners = [[0, 0], [1 / 3, 0], [1 / 3, 1 / 7], [0, 1 / 9]]; // biome-ignore format: a list of corners
  const shapes = one({ ...irregular(item({ demand: 20 }, skew), item({ demand: 9 })), strip_height: 7 / 3 });
  for (const each of [instance, shapes]) {
    let plans = 0;
    packMarker(orderOf(each, 1), {
      until: (steps) => steps >= 30,
      onBest: (plan) => {
        plans++;
        expect(provedLength(each, plan)).toBeGreaterThan(0);
      },
    });
    expect(plans).toBeGreaterThan(0);
  }
});

test("what is wrong with the text is told of the instance in which it stands, and the others are read", () => {
  const text =
    '{"instances":[{"name":"a","strip_width":NaN},{"name":"b","strip_width":3,"items":[{"w":1,"h":1}]}],}';
  const entries = readInstances(text, "file");
  expect(entries).toMatchObject([
    { name: "a", problem: expect.stringContaining("instances[0].strip_width is NaN") },
    { name: "b", instance: { width: 3 } },
    { name: "file", problem: expect.stringContaining("the file ends in a comma") },
  ]);
  for (const cut of ["", text.slice(0, 40), "\u0089PNG\0"])
    expect(readInstances(cut, "file")).toEqual([
      { name: "file", problem: expect.stringMatching(/^Line 1, column /) },
    ]);
});
