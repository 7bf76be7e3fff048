import type { OutlineSpec } from "../project/schema.ts";
import { type Assembled, assembleOutline } from "./assemble-outline.ts";
import { checkOutline } from "./outlines/check-outline.ts";
import type { Drawn, OutlineRefusal } from "./outlines/drawn.ts";
import { drawEll } from "./outlines/ell.ts";
import { drawFreeform } from "./outlines/freeform.ts";
import { drawPath } from "./outlines/path.ts";
import { drawPolygon } from "./outlines/polygon.ts";
import { drawRectangle, drawRoundEnded, drawStadium } from "./outlines/rectangle.ts";

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
  const refusals = checkOutline(spec, drawn.chain, drawn.names, draw);
  if (refusals.length > 0) return { ok: false, refusals };
  return { ok: true, ...assembleOutline(drawn.chain, drawn.names) };
}

function draw(spec: OutlineSpec): Drawn {
  switch (spec.kind) {
    case "rectangle":
      return drawRectangle(spec);
    case "stadium":
      return drawStadium(spec);
    case "round-ended":
      return drawRoundEnded(spec);
    case "ell":
      return drawEll(spec);
    case "polygon":
      return drawPolygon(spec);
    case "freeform":
      return drawFreeform(spec);
    case "path":
      return drawPath(spec);
  }
}
