import type { Run } from "../plan/chain.ts";
import type { Project } from "../project/schema.ts";
import type { Shell } from "../shell/shell.ts";
import type { Transition, TransitionKind } from "../shell/transitions.ts";
import { nearestStation } from "../surface/nearest-station.ts";
import { isAstray, mm } from "./adrift.ts";
import { ribRowOn } from "./house-rules.ts";
import { covered, type Interval } from "./intervals.ts";
import type { LaidBand, LaidZone, Layup } from "./laid.ts";
import { layRibRow } from "./rib-row.ts";
import { openSite, type Site } from "./site.ts";

/** Something without reinforcement, wholly or in part. */
export interface Bare {
  /** Id of a transition, or of a straight run of the rim whose wall has no ribs. */
  readonly id: string;
  readonly lengthMm: number;
  /** Of that, without a band; for a wall all of it. */
  readonly bareMm: number;
  readonly why: string;
}

export interface Coverage {
  readonly transitions: readonly (Bare & { readonly kind: TransitionKind })[];
  readonly walls: readonly Bare[];
}

/** Less than this of a transition's length may be bare: rounding of parts, mm. */
const SLACK = 1;

/**
 * Which transitions have no band along all their length, and which straight walls no rib. Rim and lip belong to the coping and are
 * not looked at; the foot counts as its stretches. Zones that are adrift cover nothing.
 */
export function coverage(
  project: Project,
  shell: Shell,
  transitions: readonly Transition[],
  layup: Layup,
): Coverage {
  const foot = transitions.find((transition) => transition.kind === "foot");
  const bands = layup.zones.filter((zone): zone is LaidBand => zone.kind === "band");
  return {
    transitions: transitions.flatMap((transition) => {
      const { id, kind, lengthMm } = transition;
      if (kind === "rim" || kind === "lip" || kind === "foot") return [];
      const own = bands.filter((band) => onWhat(band) === id).map(({ strip }) => strip);
      const whole = { from: 0, to: lengthMm };
      const under = kind === "stretch" && foot ? bands.filter((band) => onWhat(band) === foot.id) : [];
      const by = [
        ...own.flatMap(({ from, to }) => turns({ from, to }, lengthMm, transition.closed)),
        ...under.flatMap(({ strip }) => alongStretch(foot!, transition, strip)),
      ];
      const bareMm = lengthMm - covered(whole, by);
      if (bareMm <= SLACK) return [];
      return [{ id, kind, lengthMm, bareMm, why: whyBare(project, transition, by.length > 0) }];
    }),
    walls: bareWalls(openSite(project, shell, transitions), layup.zones),
  };
}

const onWhat = (band: LaidBand): string => (band.spec.kind === "band" ? band.spec.on : "");

/** A band's stretch as it lies on a line, on a closed one also a turn further and a turn back. */
function turns({ from, to }: Interval, length: number, closed: boolean): Interval[] {
  if (!closed) return [{ from, to }];
  return [-1, 0, 1].map((turn) => ({ from: from + turn * length, to: to + turn * length }));
}

/** What a band on the foot covers of one of its stretches, in stations of the stretch. */
function alongStretch(foot: Transition, stretch: Transition, strip: Interval): Interval[] {
  const [x, y, z] = stretch.curve.points;
  const start = nearestStation(foot.curve, x, y, z);
  return turns(strip, foot.lengthMm, foot.closed).map(({ from, to }) => ({
    from: from - start,
    to: to - start,
  }));
}

function whyBare(project: Project, { kind, id }: Transition, partly: boolean): string {
  if (partly) return `bands cover ${id} only in part`;
  if (kind === "nose" && project.rules.noseBand.plies === 0)
    return "no band; the house rules give noses none";
  return "no band lies on it";
}

function bareWalls(site: Site, zones: readonly LaidZone[]): Bare[] {
  const { chain, runs } = site.shell.outline;
  const stations = zones.flatMap((zone) =>
    zone.kind === "rib" || zone.kind === "rib-row" ? zone.ribs.map((rib) => rib.rimStationMm) : [],
  );
  return runs.flatMap((run): Bare[] => {
    if (run.kind !== "straight") return [];
    const on = (station: number) => {
      const along = station - run.from;
      return along - Math.floor(along / chain.length) * chain.length <= run.length;
    };
    if (stations.some(on)) return [];
    return [{ id: run.id, lengthMm: run.length, bareMm: run.length, why: whyNoRibs(site, run) }];
  });
}

/** What the house rules say of ribs on a wall that has none. */
function whyNoRibs(site: Site, run: Run): string {
  const { leastWall } = site.project.rules.ribs;
  if (run.length < leastWall)
    return `no rib; it is ${mm(run.length)} long, and the house rules ask for ribs from ${mm(leastWall)} on`;
  const row = layRibRow(site, ribRowOn(site, run.id));
  return isAstray(row) ? row.why : "no rib stands on it, and there is room";
}
