import { describe, expect, it } from "vitest";
import { defaultProject } from "../../core/project/defaults.ts";
import { faceIdsOf } from "../../core/project/faces.ts";
import { checkProject } from "../../core/project/parse.ts";
import type { FeatureSpec, Project, ZoneSpec } from "../../core/project/schema.ts";

function told(change: (project: Project) => void): string[] {
  const project = defaultProject();
  change(project);
  const checked = checkProject(project);
  return checked.ok ? [] : checked.problems.map((each) => each.sentence);
}

const bench = (id: string): FeatureSpec => ({
  kind: "bench",
  id,
  place: { kind: "end", end: "deep" },
  depth: 500,
  width: 400,
});
const pad = (id: string, on: string, material = "core-sheet"): ZoneSpec => ({
  kind: "pad",
  id,
  on,
  margin: 50,
  material,
});

describe("face ids", () => {
  it("run from wall and floor over the features, top down, to the coping", () => {
    const { shell } = defaultProject();
    shell.features.push(bench("bench-1"));
    expect(faceIdsOf(shell)).toEqual([
      "wall",
      "floor",
      "steps/tread-1",
      "steps/riser-1",
      "steps/tread-2",
      "steps/riser-2",
      "steps/tread-3",
      "steps/riser-3",
      "bench-1/top",
      "bench-1/riser",
      "coping/top",
      "coping/lip",
    ]);
  });
});

describe("references within a project file", () => {
  it("a piece of cloth is longer than its lap", () => {
    expect(told(({ shop }) => Object.assign(shop, { lap: 300, handlingLength: 300 }))).toEqual([
      "shop.lap is 300; it must be less than the 300 mm of shop.handlingLength. Each piece of cloth laps the next one, and must be longer than its lap.",
    ]);
    expect(told(({ shop }) => Object.assign(shop, { lap: 299, handlingLength: 300 }))).toEqual([]);
  });

  it("an id may be used once in its list", () => {
    expect(told(({ shell }) => shell.features.push(bench("steps")))).toEqual([
      'shell.features[1].id is "steps", as is shell.features[0].id; it must be an id that no other entry of the list has.',
    ]);
    expect(told(({ layup }) => layup.push(pad("a", "floor"), pad("b", "floor"), pad("a", "floor")))).toEqual([
      'layup[2].id is "a", as is layup[0].id; it must be an id that no other entry of the list has.',
    ]);
    expect(told(({ materials }) => materials.push({ ...materials[0] }))).toEqual([
      'materials[4].id is "woven-600", as is materials[0].id; it must be an id that no other entry of the list has.',
    ]);
    // A zone and a feature may share a name: they are never spoken of in the same place.
    expect(told(({ layup }) => layup.push(pad("steps", "floor")))).toEqual([]);
  });

  it("a feature may not be called as a face of every shell", () => {
    expect(told(({ shell }) => shell.features.push(bench("coping")))).toEqual([
      'shell.features[1].id is "coping"; it must be any name but wall, floor and coping, which every shell has of itself.',
    ]);
  });

  it("stations and treads run one way", () => {
    expect(told(({ shell }) => shell.floor.stations.push({ at: 6500, depth: 1800 }))).toEqual([
      "shell.floor.stations[2].at is 6500; it must be more than the 6500 mm of the station before it. Stations run from the shallow end to the deep end.",
    ]);
    const flat = told(({ shell: { features } }) => {
      if (features[0].kind === "steps") features[0].treads[1].depth = 250;
    });
    expect(flat).toEqual([
      "shell.features[0].treads[1].depth (steps) is 250; it must be more than the 300 mm of the tread above it. Treads run from the top down.",
    ]);
  });

  it("a polygon has one radius for each point", () => {
    const polygon = told(({ shell }) => {
      const points: [number, number][] = [
        [0, 0],
        [6000, 0],
        [6000, 3000],
        [0, 3000],
      ];
      shell.outline = { kind: "polygon", points, cornerRadius: [200, 200, 200] };
    });
    expect(polygon).toEqual([
      "shell.outline.cornerRadius is a list of 3 entries; it must be one radius, or a list of 4: one for each point.",
    ]);
  });

  it("a radius for a pair names two faces of the shell, each pair once", () => {
    const pairs = (...between: [string, string][]) =>
      told(({ shell }) => {
        shell.radii.pairs = between.map((pair) => ({ between: pair, radius: 80 }));
      });
    expect(pairs(["wall", "steps/tread-1"], ["steps/tread-2", "steps/riser-1"])).toEqual([]);
    expect(pairs(["wall", "steps/tread-4"])).toEqual([
      'shell.radii.pairs[0].between[1] is "steps/tread-4", which is no face of this shell; it must be wall, floor, steps/tread-1, steps/riser-1, steps/tread-2, steps/riser-2, steps/tread-3, steps/riser-3, coping/top or coping/lip. Did you mean steps/tread-1?',
    ]);
    expect(pairs(["wall", "wall"])).toEqual([
      'shell.radii.pairs[0].between is "wall" and "wall"; it must be two different faces.',
    ]);
    expect(pairs(["wall", "floor"], ["floor", "wall"])).toEqual([
      'shell.radii.pairs[1].between is "floor" and "wall"; it must be another pair than that of shell.radii.pairs[0].',
    ]);
  });

  it("a radius for a pair with the coping is that of the rim: the lip's stands with the coping", () => {
    const pair = (...between: [string, string]) =>
      told(({ shell }) => {
        shell.radii.pairs = [{ between, radius: 30 }];
      });
    expect(pair("coping/top", "wall")).toEqual([]);
    expect(pair("coping/lip", "coping/top")).toEqual([
      'shell.radii.pairs[0].between is "coping/lip" and "coping/top"; it must be left out: that radius is shell.coping.edge.radius.',
    ]);
    expect(pair("floor", "coping/top")).toEqual([
      'shell.radii.pairs[0].between is "floor" and "coping/top"; it must be a pair of faces that meet: coping/top meets only wall.',
    ]);
    expect(pair("wall", "coping/lip")).toEqual([
      'shell.radii.pairs[0].between is "wall" and "coping/lip"; it must be a pair of faces that meet: coping/lip meets only coping/top.',
    ]);
  });

  it("a zone and a rule name a material of the kind that is cut for them", () => {
    expect(told(({ layup }) => layup.push(pad("a", "floor", "core-shet")))).toEqual([
      'layup[0].material (a) is "core-shet", which is not in the list of materials; it must be the id of a sheet material: core-sheet. Did you mean core-sheet?',
    ]);
    expect(told(({ rules }) => Object.assign(rules.footBand, { material: "rib-strip" }))).toEqual([
      'rules.footBand.material is "rib-strip", a strip material; it must be the id of a woven material: woven-600 or woven-800.',
    ]);
    const noSheet = told((project) => {
      project.materials = project.materials.filter((each) => each.kind !== "sheet");
    });
    expect(noSheet).toEqual(
      ["gussets", "pads"].map(
        (rule) =>
          `rules.${rule}.material is "core-sheet", which is not in the list of materials; it must be the id of a sheet material, and the list of materials has none.`,
      ),
    );
  });

  it("are checked beside a part that the schema refuses", () => {
    const both = told((project) => {
      Object.assign(project.shell, { waterLine: -1 });
      project.layup.push({ ...pad("a", "floor", "felt"), margin: -5 } as ZoneSpec, pad("a", "floor"));
    });
    expect(both).toEqual([
      "shell.waterLine is -1; it must be a length in mm from 0 to 600.",
      "layup[0].margin (a) is -5; it must be a length in mm from 0 to 1000.",
      'layup[0].material (a) is "felt", which is not in the list of materials; it must be the id of a sheet material: core-sheet.',
      'layup[1].id is "a", as is layup[0].id; it must be an id that no other entry of the list has.',
    ]);
  });

  it("a feature named as every shell's own part is told once, not also by the faces that pairs of radii name", () => {
    const [only, ...others] = told(({ shell }) => {
      shell.features.push(bench("wall"));
      shell.radii.pairs.push({ between: ["seat/riser", "floor"], radius: 100 });
    });
    expect(only).toMatch(/^shell\.features\[\d\]\.id is "wall"; it must be any name but/);
    expect(others).toEqual([]);
  });

  it("a zone on a face or transition that the shell does not have is no mistake of the file", () => {
    const adrift = told(({ layup }) => {
      layup.push(pad("a", "old-bench/top"), {
        kind: "band",
        id: "b",
        on: "wall|gone",
        halfWidths: [100, 100],
        plies: 1,
        material: "woven-600",
      });
    });
    expect(adrift).toEqual([]);
  });
});
