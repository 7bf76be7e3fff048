import type { OutlineSpec } from "../../project/schema.ts";
import { at } from "./drawn.ts";
import { reflexCornerOfEll } from "./ell.ts";
import { CORNERS } from "./rectangle.ts";

/** A figure of the project file: its path and what stands there. */
export interface Figure {
  readonly path: string;
  readonly value: unknown;
}

/** The figure that sets the plan radius (mm) of a run of the outline, by the run's name. */
export function cornerFigure(spec: OutlineSpec, run: string): Figure {
  switch (spec.kind) {
    case "rectangle":
      return ofCorner(spec.cornerRadius, CORNERS.indexOf(run as (typeof CORNERS)[number]));
    case "polygon":
      return ofCorner(spec.cornerRadius, Number(run.replace("corner-", "")) - 1);
    case "ell":
      return run === reflexCornerOfEll(spec)
        ? { path: at("reflexRadius"), value: spec.reflexRadius }
        : { path: at("cornerRadius"), value: spec.cornerRadius };
    case "stadium":
      return { path: at("width"), value: spec.width };
    case "round-ended":
      return run === spec.roundEnd
        ? { path: at("width"), value: spec.width }
        : { path: at("cornerRadius"), value: spec.cornerRadius };
    case "freeform":
      return { path: at("points"), value: spec.points };
    case "path":
      return { path: at("segments"), value: spec.segments };
  }
}

function ofCorner(radius: number | readonly number[], index: number): Figure {
  return typeof radius === "number" || !(index in radius)
    ? { path: at("cornerRadius"), value: radius }
    : { path: at("cornerRadius", index), value: radius[index] };
}
