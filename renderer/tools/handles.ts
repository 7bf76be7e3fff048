import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { words } from "../words.ts";
import type { LineView, ShellView } from "../worker/messages.ts";
import type { LaidZoneView } from "../worker/results.ts";
import { movedEnd } from "./band.ts";
import { widenBand } from "./band-edges.ts";
import { acrossAt } from "./band-ruler.ts";
import { snapped, snapsOn } from "./band-snaps.ts";
import { figureLabel } from "./figure-label.ts";
import { moveRowEnd, slideRib } from "./ribs.ts";
import { outlineOf, stationOf } from "./rim-places.ts";
import type { Ruler } from "./ruler.ts";

/** Something of a laid zone that can be taken hold of and dragged along a ruler, or stepped by keys. */
export interface Handle {
  readonly id: string;
  readonly label: string;
  readonly ruler: Ruler;
  /** Where it stands on its ruler, and the figure that is read out: mm along or across. */
  readonly value: number;
  /** One step of an arrow key, in the ruler's figures; and how far at most a drag may jump. */
  readonly step: number;
  readonly reach: number;
  /** Length that a value stands for, mm. */
  readonly mm: (value: number) => number;
  /** The zone with this handle at another value, brought onto steps and places that it catches on. */
  readonly moved: (zone: ZoneSpec, value: number, fine: boolean) => ZoneSpec;
}

export interface Scene {
  readonly project: Project;
  readonly shell: ShellView;
  readonly lines: readonly LineView[];
  /** Where handles of an edge are wanted: the eye, in the shell's coordinates. */
  readonly eye: readonly [number, number, number];
}

/** The handles of a zone as it is laid. */
export function handlesOf(zone: ZoneSpec, laid: LaidZoneView, scene: Scene): Handle[] {
  if (zone.kind === "band") return bandHandles(zone, laid, scene);
  if (zone.kind === "rib" || zone.kind === "rib-row") return ribHandles(zone, scene);
  return [];
}

type Band = Extract<ZoneSpec, { kind: "band" }>;
type Ribs = Extract<ZoneSpec, { kind: "rib" | "rib-row" }>;

/** Half widths stand on whole steps of this, and catch on those of other bands within the other, mm. */
const WIDTH_STEP = 5;
const WIDTH_CATCH = 6;

/** Where a band has ends, the handles of its edges stand within so large a part of it about its middle. */
const MIDDLE = 0.5;

function bandHandles(zone: Band, laid: LaidZoneView, scene: Scene): Handle[] {
  const line = scene.lines.find(({ id }) => id === zone.on);
  const across = acrossAt(laid.drawing, scene.eye, line?.closed && !zone.stretch ? 1 : MIDDLE);
  const widths = ([0, 1] as const).map((side): Handle => {
    const way = side === 0 ? 1 : -1;
    return {
      id: `edge ${side}`,
      label: words.floor.handles.edge(figureLabel(["halfWidths", side], [zone])),
      ruler: across,
      value: way * zone.halfWidths[side],
      step: way * WIDTH_STEP,
      reach: 4000,
      mm: (value) => way * value,
      moved: (now, value, fine) =>
        now.kind === "band" ? widenBand(now, side, caught(way * value, scene.project, now, fine)) : now,
    };
  });
  if (!line || (line.closed && !zone.stretch)) return widths;
  const ruler = rulerOf(line);
  const { from, to } = zone.stretch ?? { from: 0, to: 1 };
  const ends = (["from", "to"] as const).map((end): Handle => {
    return {
      id: end,
      label: words.floor.handles[end],
      ruler,
      value: end === "from" ? from : to,
      step: 10 / line.lengthMm,
      reach: 0.25,
      mm: (value) => (value - Math.floor(value)) * line.lengthMm,
      moved: (now, value, fine) => {
        if (now.kind !== "band") return now;
        const { layup } = scene.project;
        const outline = outlineOf(scene.project.shell.outline);
        const part = line.closed ? value - Math.floor(value) : Math.min(1, Math.max(0, value));
        const snaps = outline ? snapsOn({ lines: scene.lines, outline, zones: layup }, line, now.id) : [];
        return movedEnd(now, end, fine ? part : snapped(part, snaps, line), line);
      },
    };
  });
  return [...widths, ...ends];
}

/** A half width on whole steps, or that of another band that it is very near to. */
function caught(width: number, { layup }: Project, own: Band, fine: boolean): number {
  if (fine) return width;
  const others = layup.flatMap((zone) => (zone.kind === "band" && zone.id !== own.id ? zone.halfWidths : []));
  const near = others.find((other) => Math.abs(other - width) <= WIDTH_CATCH);
  return near ?? Math.round(width / WIDTH_STEP) * WIDTH_STEP;
}

function rulerOf({ outside, closed }: LineView): Ruler {
  const count = outside.length / 3;
  const figures = new Float64Array(count);
  const long = (a: number, b: number) =>
    Math.hypot(...[0, 1, 2].map((k) => outside[3 * b + k] - outside[3 * a + k]));
  for (let i = 1; i < count; i++) figures[i] = figures[i - 1] + long(i - 1, i);
  const whole = figures[count - 1] + (closed ? long(count - 1, 0) : 0);
  for (let i = 0; i < count; i++) figures[i] /= whole;
  return { points: outside, figures, ...(closed && { round: 1 }) };
}

/** Ribs stand on whole steps of the tape, mm. */
const RIM_STEP = 10;

function ribHandles(zone: Ribs, { project, shell }: Scene): Handle[] {
  const outline = outlineOf(project.shell.outline);
  if (!outline) return [];
  const { length } = outline.chain;
  const ruler = rimRuler(shell);
  const base = {
    ruler,
    step: RIM_STEP,
    reach: length / 4,
    mm: (value: number) => value - Math.floor(value / length) * length,
  };
  const onTape = (value: number, fine: boolean) => (fine ? value : Math.round(value / RIM_STEP) * RIM_STEP);
  const slid = (start: number) => (now: ZoneSpec, value: number, fine: boolean) =>
    now.kind === "rib" || now.kind === "rib-row"
      ? (slideRib(now, outline, onTape(value, fine) - start) ?? now)
      : now;
  if (zone.kind === "rib") {
    const at = stationOf(outline, zone.at);
    return at === null
      ? []
      : [{ ...base, id: "at", label: words.floor.handles.rib, value: at, moved: slid(at) }];
  }
  const [from, to] = [stationOf(outline, zone.from), stationOf(outline, zone.to)];
  if (from === null || to === null) return [];
  const span = to > from ? to - from : to - from + length;
  const ends = (["from", "to"] as const).map((end): Handle => {
    return {
      ...base,
      id: end,
      label: words.floor.handles[end],
      value: end === "from" ? from : to,
      moved: (now, value, fine) =>
        now.kind === "rib-row" ? moveRowEnd(now, outline, end, onTape(value, fine)) : now,
    };
  });
  const middle = from + span / 2;
  return [
    ...ends,
    { ...base, id: "whole", label: words.floor.handles.row, value: middle, moved: slid(middle) },
  ];
}

/** The rim as a tape lies on it. */
function rimRuler({ rim, rimLengthMm }: ShellView): Ruler {
  const count = rim.length / 2;
  const points = new Float32Array(3 * count);
  const figures = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    points[3 * i] = rim[2 * i];
    points[3 * i + 1] = rim[2 * i + 1];
    figures[i] = (i * rimLengthMm) / count;
  }
  return { points, figures, round: rimLengthMm };
}
