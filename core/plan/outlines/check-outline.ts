import type { OutlineSpec } from "../../project/schema.ts";
import { limits } from "../../project/shell-schema.ts";
import type { Chain } from "../chain.ts";
import { chainBounds } from "../chain-bounds.ts";
import { crossings } from "../crossings.ts";
import { at, atLeast, type OutlineRefusal } from "./drawn.ts";

/** A plug is not made with a tighter radius in plan, mm. */
const LEAST_RADIUS = limits.cornerRadius[0];

/** What is wrong with a drawn outline whatever its kind: size, arcs too tight to mould, and meeting itself. */
export function checkOutline(spec: OutlineSpec, chain: Chain, names: readonly string[]): OutlineRefusal[] {
  return [
    ...checkSize(spec, chain),
    ...checkRadii(spec, chain, names),
    ...checkCrossings(spec, chain, names),
  ];
}

const tenths = (mm: number) => Math.round(mm * 10) / 10;

/** The field that holds an outline's shape where it is not told by figures of its own. */
function shapeField(spec: OutlineSpec): string {
  return at(spec.kind === "path" ? "segments" : "points");
}

function checkSize(spec: OutlineSpec, chain: Chain): OutlineRefusal[] {
  const box = chainBounds(chain);
  const measured = { length: box.maxX - box.minX, width: box.maxY - box.minY };
  return (["length", "width"] as const).flatMap((size) => {
    // What a road and a mould shop take.
    const [least, most] = limits[size];
    const value = measured[size];
    if (value >= least - 1e-6 && value <= most + 1e-6) return [];
    const axis = size === "length" ? "x" : "y";
    const factor =
      value < least ? Math.ceil((least / value) * 1e4) / 1e4 : Math.floor((most / value) * 1e4) / 1e4;
    const why = `The outline's ${size} (in ${axis}) is ${tenths(value)} mm; shells are ${least} to ${most} mm.`;
    const wouldWork = `a ${size} from ${least} to ${most} mm: every ${axis} times ${factor}`;
    const path = size in spec ? at(size) : shapeField(spec);
    return [{ path, value: tenths(value), why, wouldWork }];
  });
}

function checkRadii(spec: OutlineSpec, chain: Chain, names: readonly string[]): OutlineRefusal[] {
  return chain.segments.flatMap((segment, i) => {
    if (segment.kind === "line" || segment.radius >= LEAST_RADIUS - 1e-6) return [];
    const value = tenths(segment.radius);
    const why = `The outline turns with a radius of only ${value} mm in ${names[i]}.`;
    const wouldWork = `a radius of at least ${atLeast(LEAST_RADIUS)}: points further apart, or less of a turn, there`;
    return [{ path: shapeField(spec), value, why, wouldWork }];
  });
}

function checkCrossings(spec: OutlineSpec, chain: Chain, names: readonly string[]): OutlineRefusal[] {
  const crossing = crossings(chain)[0];
  if (!crossing) return [];
  const { first, second, x, y } = crossing;
  const place = `(${Math.round(x)}, ${Math.round(y)})`;
  const pair = [names[first], names[second]];
  const why =
    pair[0] === pair[1]
      ? `The outline crosses or touches itself within ${pair[0]}, at ${place}.`
      : `The outline crosses or touches itself: ${pair[0]} and ${pair[1]} meet at ${place}.`;
  const wouldWork =
    "points in the order in which they are met walking once round the pool, with clear ground between";
  return [{ path: shapeField(spec), value: pair.join(" and "), why, wouldWork }];
}
