import type { Outline } from "../plan/chain.ts";
import { makeChain } from "../plan/make-chain.ts";
import { arc, line } from "../plan/segments.ts";
import { built, type FootprintAsk, type FootprintResult, ofReach } from "./footprint-ask.ts";
import { roundJoints } from "./loop.ts";

/** Free edges run on this far beyond the pool, mm. */
const FAR = 40000;

/** A footprint over the whole width at one end: its edge is a straight line across. */
export function atEnd(outline: Outline, ask: FootprintAsk, end: "shallow" | "deep"): FootprintResult {
  const { length } = outline.extent;
  if (ask.reach >= length - 300) {
    return {
      ok: false,
      at: "reach",
      why: `reaches ${Math.round(ask.reach)} mm into a pool ${Math.round(length)} mm long`,
      wouldWork: ofReach(ask, "at most", Math.ceil(length - 300) - 1),
    };
  }
  const x = end === "shallow" ? ask.reach : length - ask.reach;
  const way = end === "shallow" ? 1 : -1;
  return built(makeChain([line(x, -way * FAR, x, way * FAR)], false));
}

/** A footprint in a plan corner, of the shape of a quarter round or of a square. */
export function inCorner(
  outline: Outline,
  ask: FootprintAsk,
  corner: string,
  shape: "round" | "square",
): FootprintResult {
  const found = inwardCorner(outline, corner);
  if (!found) {
    const corners = outline.runs.filter(({ id }) => inwardCorner(outline, id)).map(({ id }) => id);
    return {
      ok: false,
      at: { field: "corner", value: corner },
      why: `stands in "${corner}", which is not an inward corner between two straight sides`,
      wouldWork:
        corners.length > 0
          ? `one of: ${corners.join(", ")}`
          : "a place at an end or along the rim: no corner is one",
    };
  }
  const { prev, here, next } = found;
  const det = prev.ux * next.uy - prev.uy * next.ux;
  const t = ((next.ax - prev.ax) * next.uy - (next.ay - prev.ay) * next.ux) / det;
  const x = prev.ax + t * prev.ux;
  const y = prev.ay + t * prev.uy;
  const least = Math.max(here.radius * 0.42 + 100, ask.outward);
  if (ask.reach < least) {
    return {
      ok: false,
      at: "reach",
      why: `reaches ${Math.round(ask.reach)} mm from the corner point, but the corner's own radius of ${Math.round(here.radius)} mm takes that up`,
      wouldWork: ofReach(ask, "at least", Math.ceil(least)),
    };
  }
  if (shape === "round") {
    return built(makeChain([arc(x, y, ask.reach, 0, Math.PI), arc(x, y, ask.reach, Math.PI, Math.PI)], true));
  }
  // In from the next side, along the previous one, then back out along the next: the corner stays on the left.
  const slant = ask.reach / det;
  const tipX = x + (next.ux - prev.ux) * slant;
  const tipY = y + (next.uy - prev.uy) * slant;
  const a = line(tipX + prev.ux * FAR, tipY + prev.uy * FAR, tipX, tipY);
  const b = line(tipX, tipY, tipX - next.ux * FAR, tipY - next.uy * FAR);
  const square = roundJoints([a, b], false, () => Math.max(ask.outward, Math.min(250, ask.reach / 3)));
  return square
    ? built(square)
    : {
        ok: false,
        at: { field: "shape", value: shape },
        why: "finds no room in this corner",
        wouldWork: "a round one, or a corner between square sides",
      };
}

/** A rounded corner of the outline that turns into the pool between two straight sides, with these; null where it is no such corner. */
function inwardCorner({ chain, runs }: Outline, corner: string) {
  const run = runs.find(({ id }) => id === corner);
  if (!run) return null;
  const n = chain.segments.length;
  const segment = chain.stations.findIndex((s, i) => i < n && Math.abs(s - run.from) < 1e-6);
  if (segment < 0) return null;
  const here = chain.segments[segment];
  const prev = chain.segments[(segment + n - 1) % n];
  const next = chain.segments[(segment + 1) % n];
  if (here.kind !== "arc" || here.sweep <= 0 || prev.kind !== "line" || next.kind !== "line") return null;
  return { prev, here, next };
}
