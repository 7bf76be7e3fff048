import { expect, test } from "vitest";
import { checkProject } from "../../core/project/parse.ts";
import { printProject } from "../../core/project/print.ts";
import { renameFeature } from "../../core/project/rename-feature.ts";
import type { Project } from "../../core/project/schema.ts";
import { demoNames, demoProject } from "../project/demo-files.ts";

/** Every text of a file that names a face of the feature. */
const facesOf = (project: Project, id: string): string[] =>
  [...printProject(project).matchAll(/"([^"]*)"/g)]
    .map(([, text]) => text)
    .filter((text) => text.split("|").some((face) => face.startsWith(`${id}/`)));

test.each(demoNames)("a feature of %s is renamed wherever it is named, and back again", (name) => {
  const project = demoProject(name);
  for (const { id } of project.shell.features) {
    expect(facesOf(project, id).length).toBeGreaterThan(0);
    const renamed = renameFeature(project, id, "other-name");
    expect(checkProject(renamed).ok).toBe(true);
    expect(facesOf(renamed, id)).toEqual([]);
    expect(facesOf(renamed, "other-name")).toHaveLength(facesOf(project, id).length);
    expect(renamed.shell.features.map((each) => each.id)).not.toContain(id);
    expect(renameFeature(renamed, "other-name", id)).toEqual(project);
  }
});

test("radii, transitions, treads and paths follow; names that only begin alike stay", () => {
  const project = demoProject("whimbrel-9");
  project.shell.radii.pairs = [{ between: ["seat/riser", "floor"], radius: 60 }];
  const material = project.materials[0].id;
  project.layup = [
    { kind: "band", id: "a", on: "wall|seat/top#2", halfWidths: [100, 100], plies: 1, material },
    { kind: "band", id: "b", on: "wall|seat-2/top", halfWidths: [100, 100], plies: 1, material },
    {
      kind: "stroke",
      id: "c",
      path: [
        { face: "seat/top", alongPart: 0, acrossPart: 0 },
        { face: "floor", alongPart: 0, acrossPart: 0 },
      ],
      width: 100,
      plies: 1,
      material,
    },
  ];
  const { shell, layup } = renameFeature(project, "seat", "corner-seat");
  expect(shell.radii.pairs[0].between).toEqual(["corner-seat/riser", "floor"]);
  expect(layup.map((zone) => zone.kind === "band" && zone.on)).toEqual([
    "wall|corner-seat/top#2",
    "wall|seat-2/top",
    false,
  ]);
  expect(layup[2]).toMatchObject({ path: [{ face: "corner-seat/top" }, { face: "floor" }] });
});
