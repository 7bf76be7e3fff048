import { pointAt } from "../../core/plan/point-at.ts";
import type { LineView } from "../worker/messages.ts";
import { nearestOn } from "./line-place.ts";
import type { Ground } from "./tool.ts";

/** Ends catch on a place within this, mm along the line. */
const CATCH = 80;
/** Ends that catch on nothing stand on steps of this, mm. */
const STEP = 10;
/** The foot of a wall lies at most this far inside the rim, mm in plan. */
const BELOW_RIM = 500;

/** Parts of a line on which the ends of bands catch: its own ends, what else ends on it, corners, ends of other bands. */
export function snapsOn(
  ground: Pick<Ground, "outline" | "lines" | "zones">,
  line: LineView,
  except?: string,
): number[] {
  const { outline, lines, zones } = ground;
  const own = line.closed ? [] : [0, 1];
  const meeting = lines.flatMap(({ id, outside, closed, kind }) => {
    if (id === line.id || closed || kind === "stretch") return [];
    return [outside.subarray(0, 3), outside.subarray(-3)].flatMap((end) => {
      const { part, distance } = nearestOn(line.outside, line.closed, [...end]);
      return distance < 1 ? [part] : [];
    });
  });
  const round = line.kind === "foot" || line.kind === "rim" || line.kind === "lip";
  const corners = round
    ? outline.runs.flatMap((run) => crossingSquareTo(line, pointAt(outline.chain, run.from)) ?? [])
    : [];
  const others = zones.flatMap((zone) =>
    zone.kind === "band" && zone.on === line.id && zone.id !== except && zone.stretch
      ? [zone.stretch.from, zone.stretch.to]
      : [],
  );
  return [...own, ...meeting, ...corners, ...others];
}

/** Where a line crosses the plane square to the rim at a place of it, as a tape reads it; null where it does not. */
function crossingSquareTo(
  { outside: p, closed }: LineView,
  rim: { readonly x: number; readonly y: number; readonly tx: number; readonly ty: number },
): number | null {
  const along = (i: number) => (p[i] - rim.x) * rim.tx + (p[i + 1] - rim.y) * rim.ty;
  const off = (i: number) => Math.abs((p[i] - rim.x) * rim.ty - (p[i + 1] - rim.y) * rim.tx);
  let found: number | null = null;
  let station = 0;
  let nearest = BELOW_RIM;
  const count = p.length / 3;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const [a, b] = [3 * i, 3 * ((i + 1) % count)];
    const long = Math.hypot(p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]);
    const [from, to] = [along(a), along(b)];
    if (from > 0 !== to > 0 && off(a) < nearest) {
      nearest = off(a);
      found = station + (long * from) / (from - to);
    }
    station += long;
  }
  return found === null ? null : found / station;
}

/** A part of a line brought onto the nearest place that ends catch on, or else onto a whole step. */
export function snapped(part: number, snaps: readonly number[], line: LineView): number {
  const off = (snap: number) => {
    const by = Math.abs(snap - part);
    return (line.closed ? Math.min(by, 1 - by) : by) * line.lengthMm;
  };
  const near = snaps.filter((snap) => off(snap) <= CATCH).sort((a, b) => off(a) - off(b))[0];
  if (near !== undefined) return near;
  const steps = line.lengthMm / STEP;
  return Math.min(1, Math.max(0, Number((Math.round(part * steps) / steps).toFixed(6))));
}
