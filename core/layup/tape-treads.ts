import type { Strip, StripSide } from "../surface/strip.ts";
import { planBox } from "./anchors.ts";
import type { LaidBand, LaidZone } from "./laid.ts";
import type { Site } from "./site.ts";
import { tellingPoints } from "./tape-line.ts";

/**
 * A level face laid flat, seen from outside: its longer way runs to the right, and what lies to the right of it on the tape of the
 * wall lies so here. Pairs of along, across, mm, from the box that holds the face.
 */
export interface FlatFace {
  readonly id: string;
  readonly feature: string;
  readonly alongMm: number;
  readonly acrossMm: number;
  /** The box in plan, mm, and whether its y runs to the right here. */
  readonly box: {
    readonly minX: number;
    readonly maxX: number;
    readonly minY: number;
    readonly maxY: number;
  };
  readonly turned: boolean;
  /** The lines that bound it: ids of the transitions. */
  readonly bounds: readonly { readonly id: string; readonly line: Float64Array }[];
  /** What lies on it, zone by zone. */
  readonly parts: readonly FlatPart[];
}

export interface FlatPart {
  readonly zone: string;
  /** `web 3`, or "". */
  readonly name: string;
  /** Closed outline, the first point not repeated. */
  readonly outline: Float64Array;
}

/** The plan point (mm) of a place of a face that is laid flat. */
export const planPointOf = ({ box, turned }: FlatFace, along: number, across: number): [number, number] =>
  turned ? [box.maxX - across, box.minY + along] : [box.minX + along, box.minY + across];

/** Where a plan point (mm) lies on a face that is laid flat: from outside the plan is seen from below, x to the right and y down, or that turned by a quarter. */
export const flatPointOf = (
  { box, turned }: Pick<FlatFace, "box" | "turned">,
  x: number,
  y: number,
): readonly [along: number, across: number] =>
  turned ? [y - box.minY, box.maxX - x] : [x - box.minX, y - box.minY];

/** Lays every tread, bench and ledge top flat, with the pads, webs and bands on it. */
export function flatFaces(site: Site, zones: readonly LaidZone[]): FlatFace[] {
  return site.shell.faces.flatMap((face): FlatFace[] => {
    if (face.kind !== "tread") return [];
    const box = planBox(site, face.id);
    if (!box) return [];
    const [long, wide] = [box.maxX - box.minX, box.maxY - box.minY];
    const turned = wide > long;
    const flat: Flat = (x, y) => flatPointOf({ box, turned }, x, y);
    const bounds = site.transitions.filter(
      ({ between, kind }) => kind !== "foot" && between.includes(face.id),
    );
    return [
      {
        id: face.id,
        feature: face.feature,
        alongMm: turned ? wide : long,
        acrossMm: turned ? long : wide,
        box,
        turned,
        bounds: bounds.map(({ id, curve, closed }) => {
          const indices = tellingPoints(curve.points, curve.stations.length);
          return { id, line: flatLine(curve.points, closed ? [...indices, 0] : indices, flat) };
        }),
        parts: zones.flatMap((zone) => partsOn(zone, face.id, flat)),
      },
    ];
  });
}

type Flat = (x: number, y: number) => readonly [number, number];

const flatLine = (points: ArrayLike<number>, indices: readonly number[], flat: Flat): Float64Array =>
  Float64Array.from(indices.flatMap((i) => [...flat(points[3 * i], points[3 * i + 1])]));

function partsOn(zone: LaidZone, face: string, flat: Flat): FlatPart[] {
  const { id, spec } = zone;
  switch (zone.kind) {
    case "pad":
      if (spec.kind !== "pad" || spec.on !== face) return [];
      return zone.shapes.map(({ shape: { points } }) => ({
        zone: id,
        name: "",
        outline: Float64Array.from(
          Array.from({ length: points.length / 2 }, (_, i) => [
            ...flat(points[2 * i], points[2 * i + 1]),
          ]).flat(),
        ),
      }));
    case "gussets": {
      if (spec.kind !== "gussets" || spec.under !== face) return [];
      const half = zone.material.kind === "sheet" ? zone.material.thickness / 2 : 0;
      return zone.gussets.map(({ name, origin, xDirection: [ux, uy], shape }) => {
        let reach = 0;
        for (let i = 0; i < shape.points.length; i += 2) reach = Math.max(reach, shape.points[i]);
        const corner = (along: number, side: number) =>
          flat(origin[0] + along * ux - side * uy, origin[1] + along * uy + side * ux);
        const outline = [corner(0, -half), corner(reach, -half), corner(reach, half), corner(0, half)];
        return { zone: id, name: `web ${name}`, outline: Float64Array.from(outline.flat()) };
      });
    }
    case "band":
      return bandOn(zone, face, flat);
    default:
      return [];
  }
}

/** The side of a band that lies on the face, between its line and its edge there. */
function bandOn({ id, spec, strip }: LaidBand, face: string, flat: Flat): FlatPart[] {
  if (spec.kind !== "band") return [];
  const [left, right] = spec.on.split("#")[0].split("|");
  const side = left === face ? strip.left : right === face ? strip.right : null;
  return side ? [{ zone: id, name: "", outline: sideOutline(strip, side, flat) }] : [];
}

function sideOutline(strip: Strip, side: StripSide, flat: Flat): Float64Array {
  const count = strip.stations.length;
  const column = (c: number) => {
    const points = new Float64Array(3 * count);
    for (let i = 0; i < count; i++) {
      const at = 3 * (i * side.columns + c);
      points.set(side.points.subarray(at, at + 3), 3 * i);
    }
    return flatLine(points, tellingPoints(points, count), flat);
  };
  const [line, edge] = [column(0), column(side.columns - 1)];
  const back: number[] = [];
  for (let i = edge.length - 2; i >= 0; i -= 2) back.push(edge[i], edge[i + 1]);
  return Float64Array.of(...line, ...back);
}
