import type { OutlineSpec } from "../project/schema.ts";
import { type Assembled, assembleOutline } from "./assemble-outline.ts";
import type { Drawn, OutlineRefusal } from "./outlines/drawn.ts";
import { drawRectangle } from "./outlines/rectangle.ts";

export type OutlineResult =
  | ({ readonly ok: true } & Assembled)
  | { readonly ok: false; readonly refusals: readonly OutlineRefusal[] };

/**
 * Builds the rim's outline from its figures in the project file (mm). The runs' names are told at the function that draws
 * each kind (folder `outlines`). An outline that cannot be built is refused with every reason found.
 */
export function buildOutline(spec: OutlineSpec): OutlineResult {
  const drawn = draw(spec);
  if (!drawn.ok) return drawn;
  return { ok: true, ...assembleOutline(drawn.chain, drawn.names) };
}

function draw(spec: OutlineSpec): Drawn {
  switch (spec.kind) {
    case "rectangle":
      return drawRectangle(spec);
    default:
      throw new RangeError(`Outlines of the kind ${spec.kind} are not drawn yet.`);
  }
}
