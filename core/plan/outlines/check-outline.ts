import type { OutlineSpec } from "../../project/schema.ts";
import { limits } from "../../project/shell-schema.ts";
import type { Chain } from "../chain.ts";
import { chainBounds } from "../chain-bounds.ts";
import { crossings } from "../crossings.ts";
import { at, atLeast, type Drawn, LEAST_RADIUS, type OutlineRefusal } from "./drawn.ts";

type Draw = (spec: OutlineSpec) => Drawn;

/** What is wrong with a drawn outline whatever its kind: size, arcs too tight to mould, and meeting itself. */
export function checkOutline(
  spec: OutlineSpec,
  chain: Chain,
  names: readonly string[],
  draw: Draw,
): OutlineRefusal[] {
  return [
    ...checkSize(spec, chain, draw),
    ...checkRadii(spec, chain, names),
    ...checkCrossings(spec, chain, names),
  ];
}

const tenths = (mm: number) => Math.round(mm * 10) / 10;

/** The field that holds an outline's shape where it is not told by figures of its own. */
function shapeField(spec: OutlineSpec): string {
  return at(spec.kind === "path" ? "segments" : "points");
}

type Size = "length" | "width";

function sizeOf(chain: Chain): Record<Size, number> {
  const box = chainBounds(chain);
  return { length: box.maxX - box.minX, width: box.maxY - box.minY };
}

const fits = (value: number, [least, most]: readonly [number, number]) =>
  value >= least - 1e-6 && value <= most + 1e-6;

function checkSize(spec: OutlineSpec, chain: Chain, draw: Draw): OutlineRefusal[] {
  const measured = sizeOf(chain);
  return (["length", "width"] as const).flatMap((size) => {
    // What a road and a mould shop take.
    const [least, most] = limits[size];
    const value = measured[size];
    if (fits(value, limits[size])) return [];
    const axis = size === "length" ? "x" : "y";
    const why = `The outline's ${size} (in ${axis}) is ${tenths(value)} mm; shells are ${least} to ${most} mm.`;
    const wouldWork = `a ${size} from ${least} to ${most} mm${stretchThatFits(spec, size, value, draw)}`;
    const path = size in spec ? at(size) : shapeField(spec);
    return [{ path, value: tenths(value), why, wouldWork }];
  });
}

/** Rounds in which a factor is brought to the size; the arcs of a rim do not stretch as its points do. */
const ROUNDS = 12;

/**
 * What every coordinate must be multiplied by, in words: along the one axis, or along both where that does not do it (arcs that
 * are to run smoothly into each other only grow and shrink evenly); nothing where neither does.
 */
function stretchThatFits(spec: OutlineSpec, size: Size, value: number, draw: Draw): string {
  const axis = size === "length" ? "x" : "y";
  for (const axes of spec.kind === "path" ? ["x and y"] : [axis, "x and y"]) {
    const factor = factorThatFits(size, value, (tried) => draw(stretched(spec, axes, tried)));
    if (factor !== null) return `: every ${axes} times ${factor}`;
  }
  return "";
}

function factorThatFits(size: Size, value: number, drawnBy: (factor: number) => Drawn): number | null {
  const [least, most] = limits[size];
  const [wanted, round] = value < least ? [least, Math.ceil] : [most, Math.floor];
  let factor = wanted / value;
  for (let k = 0; k < ROUNDS; k++) {
    const told = round(factor * 1e4) / 1e4;
    const drawn = drawnBy(told);
    if (!drawn.ok) return null;
    const now = sizeOf(drawn.chain)[size];
    if (fits(now, limits[size])) return told;
    factor = told * (wanted / now);
  }
  return null;
}

function stretched(spec: OutlineSpec, axes: string, factor: number): OutlineSpec {
  const along = axes.includes("x") ? factor : 1;
  const across = axes.includes("y") ? factor : 1;
  const point = ([x, y]: readonly [number, number]): [number, number] => [x * along, y * across];
  if ("points" in spec) return { ...spec, points: spec.points.map(point) };
  if (spec.kind !== "path") return spec;
  const segments = spec.segments.map((each) => ({ ...each, to: point(each.to) }));
  return { ...spec, start: point(spec.start), segments };
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
