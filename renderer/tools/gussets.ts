import { faceName } from "../parts/names.ts";
import type { Ground, Place, Tool } from "./tool.ts";

/** A row of gussets in the corner under a tread, bench or ledge: a click on its top or on its riser lays it. */
export const gussetsTool: Tool = {
  at: (ground, { face }) => {
    const { faces } = ground.shell;
    const at = faces.findIndex(({ id }) => id === face);
    if (faces[at]?.kind === "tread") return place(ground, face);
    // A riser stands next after the tread that it carries.
    return faces[at]?.kind === "riser" && faces[at - 1]?.kind === "tread"
      ? place(ground, faces[at - 1].id)
      : null;
  },
  places: (ground) =>
    ground.shell.faces.flatMap(({ id, kind }) => (kind === "tread" ? [place(ground, id)] : [])),
};

function place({ project }: Ground, under: string): Place {
  const { pitch, margin, reach, drop, material } = project.rules.gussets;
  return {
    id: under,
    name: faceName(under),
    lights: { kind: "face", id: under },
    zone: { kind: "gussets", under, pitch, margin, reach, drop, material },
  };
}
