import type { ZoneSpec } from "../../core/project/schema.ts";
import { lineName } from "../parts/names.ts";
import type { LineView } from "../worker/messages.ts";
import { snapped, snapsOn } from "./band-snaps.ts";
import { nearestOn } from "./line-place.ts";
import type { Aim, Ground, Place, Tool } from "./tool.ts";

/** A transition is pointed at from this far, mm along the surface or less. */
const REACH = 320;

/** A band on a transition: a click lays it on the whole line, a drag along the line on a part of it. */
export const bandTool: Tool = {
  at(ground, aim) {
    const line = lineNear(ground, aim);
    return line && place(ground, line);
  },
  along(ground, from, to) {
    const line = lineNear(ground, from);
    if (!line) return null;
    const stretch = stretchOn(ground, line, from, to);
    return stretch && place(ground, line, stretch);
  },
  places: (ground) =>
    ground.lines.flatMap((line) => (line.kind === "stretch" ? [] : (place(ground, line) ?? []))),
};

function place(ground: Ground, line: LineView, stretch?: { from: number; to: number }): Place | null {
  const rule = ground.bands[line.id];
  if (!rule) return null;
  const { halfWidths, material } = rule;
  return {
    id: line.id,
    name: lineName(line.id),
    lights: { kind: "transition", id: line.id },
    zone: {
      kind: "band",
      on: line.id,
      ...(stretch && { stretch }),
      halfWidths: [halfWidths[0], halfWidths[1]],
      // Where the rules lay none of their own accord, whoever points at it wants one.
      plies: Math.max(1, rule.plies),
      material,
    },
  };
}

/** The transition nearest to a point among those that take a band. */
function lineNear({ lines, bands }: Ground, { point }: Aim): LineView | null {
  let best = REACH;
  let found: LineView | null = null;
  for (const line of lines) {
    if (line.kind === "stretch" || !bands[line.id]) continue;
    const { distance } = nearestOn(line.outside, line.closed, point);
    if (distance >= best) continue;
    best = distance;
    found = line;
  }
  return found;
}

/** The stretch between two points; on a closed line the shorter way round. Null where both are the same place. */
function stretchOn(ground: Ground, line: LineView, from: Aim, to: Aim): { from: number; to: number } | null {
  const snaps = snapsOn(ground, line);
  const partAt = ({ point }: Aim) => snapped(nearestOn(line.outside, line.closed, point).part, snaps, line);
  const [a, b] = [partAt(from), partAt(to)];
  if (Math.abs(a - b) * line.lengthMm < SHORTEST) return null;
  const [low, high] = a < b ? [a, b] : [b, a];
  return line.closed && high - low > 0.5 ? { from: high, to: low } : { from: low, to: high };
}

/** A drag shorter than this lays nothing, mm. */
const SHORTEST = 60;

type BandSpec = Extract<ZoneSpec, { kind: "band" }>;

/** A band with one end moved to another part of its line. The ends of an open line's band do not pass each other. */
export function movedEnd(
  zone: BandSpec,
  end: "from" | "to",
  part: number,
  line: Pick<LineView, "closed" | "lengthMm">,
): BandSpec {
  const stretch = { ...(zone.stretch ?? { from: 0, to: 1 }), [end]: part };
  const long = (line.closed && stretch.to < stretch.from ? stretch.to + 1 : stretch.to) - stretch.from;
  return long * line.lengthMm < SHORTEST ? zone : { ...zone, stretch };
}

/** A part of a band slid along its line by a part of that, as long as before: round a closed line, on an open one as far as its ends. */
export function slidBand(zone: BandSpec, by: number, { closed }: Pick<LineView, "closed">): BandSpec {
  if (!zone.stretch) return zone;
  const { from, to } = zone.stretch;
  const held = closed ? by : Math.max(-from, Math.min(by, 1 - to));
  const at = (part: number) => {
    const moved = part + held;
    return Number((closed ? moved - Math.floor(moved) : moved).toFixed(6));
  };
  return { ...zone, stretch: { from: at(from), to: at(to) } };
}
