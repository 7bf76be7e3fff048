import { expect, test } from "vitest";
import { zoneName as idFor } from "../../core/layup/zone-names.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { findTransitions } from "../../core/shell/transitions.ts";
import { zoneName } from "../../renderer/parts/names.ts";
import { demoProject } from "../project/demo-files.ts";

const named = (line: string) => zoneName(idFor("band", line, new Set()));

test("a band laid by hand is called by its place as a shop calls it", () => {
  expect(named("steps/riser-1|steps/tread-2")).toBe("band steps rise 1");
  expect(named("steps/tread-1|steps/riser-1")).toBe("band steps nose 1");
  expect(named("ledge/top|ledge/riser")).toBe("band ledge nose");
  expect(named("floor|steps/riser-4")).toBe("band steps foot 4");
  expect(named("floor|bench-left/riser")).toBe("band bench left foot");
  expect(named("wall|bench-left/top")).toBe("band bench left back");
  expect(named("wall|steps/tread-2#2")).toBe("band steps back 2 2");
  expect(named("wall|steps/riser-1")).toBe("band steps end 1");
  expect(named("foot")).toBe("band foot");
  expect(zoneName("ribs-left")).toBe("ribs left");
});

test("no two lines of a shell share the short name of their band, and few words do", () => {
  for (const demo of ["whimbrel-9", "gannet-11", "dunlin-4"]) {
    const built = buildShell(demoProject(demo).shell);
    if (!built.ok) throw new Error(`${demo} cannot be built.`);
    const { transitions } = findTransitions(
      built.shell,
      meshSurface(built.shell.field, { quality: "preview" }),
    );
    const names = transitions.map(({ id }) => named(id));
    expect(new Set(names).size).toBe(names.length);
    const own = transitions.flatMap(({ id }, i) => (/(\w[\w-]*)\/\S+\|\1\//.test(id) ? [names[i]] : []));
    expect(own.length).toBeGreaterThan(1);
    for (const name of own) expect(name.split(" ").length, name).toBeLessThanOrEqual(5);
  }
});
