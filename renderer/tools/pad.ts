import { faceName } from "../parts/names.ts";
import type { Ground, Place, Tool } from "./tool.ts";

/** A flat pad on the back of a tread, bench, ledge or level floor: a click lays it. */
export const padTool: Tool = {
  at: (ground, { face }) => (takes(ground, face) ? place(ground, face) : null),
  places: (ground) => ground.shell.faces.flatMap(({ id }) => (takes(ground, id) ? [place(ground, id)] : [])),
};

const takes = ({ shell }: Ground, face: string): boolean => {
  const kind = shell.faces.find(({ id }) => id === face)?.kind;
  return kind === "tread" || kind === "floor";
};

function place({ project }: Ground, on: string): Place {
  const { margin, material } = project.rules.pads;
  return {
    id: on,
    name: faceName(on),
    lights: { kind: "face", id: on },
    zone: { kind: "pad", on, margin, material },
  };
}
