/** Shells made ready for laying up in tests: plain basins whose closed forms are known, and the demo projects. */
import type {
  LaidBand,
  LaidGussets,
  LaidPad,
  LaidRibs,
  LaidStiffener,
  Layup,
} from "../../core/layup/laid.ts";
import { layZone, transitionsOf } from "../../core/layup/lay-up.ts";
import { openSite, type Site } from "../../core/layup/site.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import type { Project, ShellSpec, ZoneSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import type { Transition } from "../../core/shell/transitions.ts";
import { demoProject } from "../project/demo-files.ts";

/** A project with its shell built and the transitions of its lay-up surface found. */
export interface Ground {
  readonly project: Project;
  readonly shell: Shell;
  readonly transitions: readonly Transition[];
}

/** Size of the plain basin: flat floor, plumb walls, one radius in all plan corners, a flat coping. Lengths mm. */
export const basin = { length: 5000, width: 2600, corner: 600, depth: 1300, cove: 200, rim: 20, flange: 150 };

export function basinProject(shell: Partial<ShellSpec> = {}): Project {
  const { length, width, corner, depth, cove, rim, flange } = basin;
  return {
    ...defaultProject(),
    shell: {
      outline: { kind: "rectangle", length, width, cornerRadius: corner },
      floor: { stations: [{ at: 0, depth }], breakRadius: 1000, crossFall: 0 },
      draftDeg: 0,
      radii: { cove, step: 50, nose: 30, pairs: [] },
      features: [],
      coping: { flange, rimRadius: rim, edge: { kind: "flat" } },
      fittings: [],
      waterLine: 100,
      ...shell,
    },
  };
}

/** A full-width ledge at the shallow end: its top at 400 mm, its riser 1500 mm from the end. */
export const ledge: ShellSpec["features"][number] = {
  kind: "ledge",
  id: "ledge",
  place: { kind: "end", end: "shallow" },
  depth: 400,
  reach: 1500,
};

/** Builds the project's shell; throws with the reasons if it is refused. */
export function shellOf(project: Project): Shell {
  const built = buildShell(project.shell);
  if (!built.ok) throw new Error(built.refusals.map(({ why }) => why).join("\n"));
  return built.shell;
}

/** Opens a project's shell for laying up, without looking for its transitions: enough for ribs and stiffeners. */
export const siteOf = (project: Project): Site => openSite(project, shellOf(project), []);

const grounds = new Map<string, Ground>();

/** A project's ground; the same project is built and meshed once in a test file. */
export function groundOf(project: Project): Ground {
  const key = JSON.stringify([project.shell, project.shop.laidThickness]);
  const known = grounds.get(key);
  if (known) return { ...known, project };
  const shell = shellOf(project);
  const ground = { project, shell, transitions: transitionsOf(project, shell) };
  grounds.set(key, ground);
  return ground;
}

export const demoGround = (name: string): Ground => groundOf(demoProject(name));

interface LaidAs {
  readonly band: LaidBand;
  readonly stroke: LaidBand;
  readonly rib: LaidRibs;
  readonly "rib-row": LaidRibs;
  readonly gussets: LaidGussets;
  readonly pad: LaidPad;
  readonly stiffener: LaidStiffener;
}

/** Lays one zone of the kind asked for; throws with the reason if it is adrift. */
export function laid<K extends ZoneSpec["kind"]>(
  site: Site,
  spec: Extract<ZoneSpec, { kind: K }>,
): LaidAs[K] {
  const result = layZone(site, spec);
  if ("why" in result) throw new Error(`${spec.id} is adrift: ${result.why}`);
  return result as LaidAs[K];
}

/** Opens a project's ground for laying up. */
export const openGround = ({ project, shell, transitions }: Ground): Site =>
  openSite(project, shell, transitions);

/** What a layup says of its zones in one list, for comparing. */
export const namesOf = ({ zones, adrift }: Layup): string[] => [...zones, ...adrift].map(({ id }) => id);
