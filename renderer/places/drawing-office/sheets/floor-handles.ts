import { formatPath } from "../../../../core/project/problem.ts";
import type { FloorSpec, ShellSpec } from "../../../../core/project/schema.ts";
import { setting } from "../../../document/figure-path.ts";
import type { Recipe } from "../../../document/history.ts";
import { words } from "../../../words.ts";
import type { Drawn } from "./drawn-shell.ts";
import {
  dot,
  figureSetter,
  type Handle,
  less,
  onGrain,
  onward,
  type Spot,
  together,
  unit,
} from "./handle.ts";
import { uprightHandle } from "./upright-handle.ts";

const told = words.drawing.handles;
/** Stations stay at least this far from each other, mm. */
const APART = 10;

/** The handles of the long section, a sheet of lengths along the pool and heights over the rim. */
export function floorHandles(shell: ShellSpec, drawn: Drawn): Handle[] {
  const { stations, hopper } = shell.floor;
  const { from, to } = drawn.cut;
  return [
    uprightHandle(shell, "water", told.water, from, shell.waterLine, ["waterLine"]),
    ...stations.map((_, i) => stationHandle(shell, i)),
    ...breakHandle(shell),
    ...(hopper
      ? [
          uprightHandle(shell, "hopper", told.hopper, to, hopper.depthAtWall, [
            "floor",
            "hopper",
            "depthAtWall",
          ]),
        ]
      : []),
  ];
}

function stationHandle(shell: ShellSpec, i: number): Handle {
  const { stations } = shell.floor;
  const { at, depth } = stations[i];
  const path = ["floor", "stations", i];
  const setAt = figureSetter(shell, [...path, "at"]);
  const setDepth = figureSetter(shell, [...path, "depth"]);
  const least = i === 0 ? -Infinity : stations[i - 1].at + APART;
  const most = i === stations.length - 1 ? Infinity : stations[i + 1].at - APART;
  return {
    id: `station-${i}`,
    name: told.station(i + 1),
    at: { x: at, y: -depth },
    shape: "point",
    along: null,
    stride: 1,
    value: depth,
    told: (print) => words.drawing.alongDown(print(at), print(depth)),
    field: formatPath(["shell", ...path]),
    to: ({ x, y }, grain) =>
      together(setAt(Math.min(most, Math.max(least, onGrain(x, grain)))), setDepth(onGrain(-y, grain))),
  };
}

/** The rounding of the breaks, taken hold of where the arc of the sharpest break ends. */
function breakHandle(shell: ShellSpec): Handle[] {
  const { stations, breakRadius } = shell.floor;
  const spots = stations.map(({ at, depth }): Spot => ({ x: at, y: -depth }));
  const breaks = spots.slice(1, -1).map((spot, i) => {
    const before = unit(less(spot, spots[i]));
    const after = unit(less(spots[i + 2], spot));
    const turn = Math.acos(Math.min(1, dot(before, after)));
    return { spot, after, tangent: Math.tan(turn / 2) };
  });
  const sharpest = breaks.reduce((a, b) => (b.tangent > a.tangent ? b : a), breaks[0]);
  if (!sharpest || sharpest.tangent < 1e-3) return [];
  const { spot, after, tangent } = sharpest;
  const set = figureSetter(shell, ["floor", "breakRadius"]);
  return [
    {
      id: "breaks",
      name: told.breaks,
      at: onward(spot, after, breakRadius * tangent),
      shape: "centre",
      along: after,
      stride: tangent,
      value: breakRadius,
      told: (print) => `R ${print(breakRadius)}`,
      field: "shell.floor.breakRadius",
      to: (wanted, grain) => set(onGrain(dot(less(wanted, spot), after) / tangent, grain)),
    },
  ];
}

const MOST_STATIONS = 20;

/** A new station at a place along the floor, at the floor's depth there; null where no more fit. */
export function addingStation({ stations }: FloorSpec, at: number, depth: number): Recipe | null {
  const whole = Math.round(at);
  const close = stations.some((station) => Math.abs(station.at - whole) < APART);
  if (close || whole < 0 || stations.length >= MOST_STATIONS) return null;
  const added = [...stations, { at: whole, depth: Math.min(2800, Math.max(600, Math.round(depth))) }];
  return setting(
    ["shell", "floor", "stations"],
    added.sort((a, b) => a.at - b.at),
  );
}

/** Takes a station out; null for the last one. */
export function removingStation({ stations }: FloorSpec, i: number): Recipe | null {
  if (stations.length < 2 || !stations[i]) return null;
  return setting(["shell", "floor", "stations"], stations.toSpliced(i, 1));
}
