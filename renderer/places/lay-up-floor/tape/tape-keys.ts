import { select, selectedZones, session } from "../../../document/session.ts";
import { isImperial } from "../../../parts/imperial.ts";
import { replacing } from "../../../tools/zone-edits.ts";
import type { Point } from "./flat-lines.ts";
import { bandEnd, dragged, type Grip, movedBy } from "./grips.ts";
import { makeNudging } from "./nudging.ts";
import { chooseAt, dropSweep, hoverAt, layOffered, stepFor, sweepTo } from "./tape-acts.ts";
import type { TapeBoard } from "./tape-board.ts";
import { isLaying } from "./tape-state.ts";
import type { Placed } from "./things.ts";

/** One step of the cross, pixels; of a nudge, mm. */
const STEP_PX = 10;
const NUDGE = { metric: 10, imperial: 12.7 };

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/**
 * Everything on the tape by keys: arrows move a cross that reads the tape, Enter chooses or lays there (with Shift it begins a row
 * or a stretch, and the next Enter ends it), comma and full stop go from zone to zone, Alt with arrows moves the chosen one, plus, minus and nought zoom.
 */
export function followKeys(tape: TapeBoard): () => void {
  const { canvas } = tape;
  const nudging = makeNudging(tape.desk.project);
  let from: Point | null = null;

  const cross = (): Point => {
    if (tape.point) return tape.point;
    const box = canvas.getBoundingClientRect();
    return tape.pointAt(box.width / 2, box.height / 2);
  };
  const move = (to: Point) => {
    if (!from || !isLaying() || !sweepTo(tape, from, to)) hoverAt(tape, to);
    tape.show(to);
  };
  const enter = (begin: boolean) => {
    const point = cross();
    if (!isLaying()) chooseAt(tape, point, begin);
    else if (begin) from = sweepTo(tape, point, point) ? point : null;
    else {
      if (!from) hoverAt(tape, point);
      from = null;
      void layOffered(tape);
    }
  };
  const nextZone = (way: 1 | -1) => {
    const first = firstOfEach(tape.board?.placed ?? []);
    if (first.length === 0) return;
    const [now] = selectedZones(session.getState());
    const at = first.findIndex(({ zone }) => zone === now);
    const next = first[(at < 0 ? (way > 0 ? 0 : first.length - 1) : at + way + first.length) % first.length];
    const { x0, x1, y0, y1 } = next.box;
    const along = Math.max(0, (x0 + x1) / 2 + next.shifts[0]);
    move({ along, down: (y0 + y1) / 2 });
    select({ kind: "zone", id: next.zone });
  };
  const nudge = (right: number, downwards: number, far: boolean) => {
    const { ground } = tape;
    const [id] = selectedZones(session.getState());
    const zone = ground?.project.layup.find((each) => each.id === id);
    if (!ground || !zone || session.getState().locked.has(zone.id)) return;
    const step = (isImperial(session.getState().lengths) ? NUDGE.imperial : NUDGE.metric) * (far ? 10 : 1);
    const other: Grip | null =
      zone.kind === "band" && downwards !== 0
        ? { kind: "edge", zone: zone.id, side: 0 }
        : (zone.kind === "rib" || zone.kind === "rib-row") && right !== 0
          ? { kind: "slide", zone: zone.id }
          : null;
    const start = zone.kind === "band" && right !== 0 ? bandEnd(zone, "from", ground) : null;
    const grip: Grip | null = start ? { kind: "slide", zone: zone.id } : other;
    if (!grip) return;
    const line = ground.board.placed.find((each) => each.zone === id)?.line ?? [0, 0];
    // A part of a band goes along its line; else from a point above the line, up is wider.
    const from = start ?? { along: line[0], down: line[1] - 5000 };
    const to = { along: from.along + right * step, down: from.down + downwards * step };
    const after = dragged(grip, zone, ground, from, to, true);
    const laid = tape.desk.project.state.getState().history.project.layup.find((each) => each.id === id);
    nudging.nudge(stepFor(grip), replacing(after));
    if (laid) tape.moved = movedBy(laid, after, ground.outline);
    tape.redraw();
  };

  const onKey = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey) return;
    const arrow = arrows[event.key];
    if (arrow && event.altKey) nudge(arrow[0], arrow[1], event.shiftKey);
    else if (arrow) {
      const by = STEP_PX * tape.grain * (event.shiftKey ? 10 : 1);
      const { along, down } = cross();
      move({ along: along + arrow[0] * by, down: down + arrow[1] * by });
    } else if (event.key === "Enter") enter(event.shiftKey);
    else if (event.key === "." || event.key === ",") nextZone(event.key === "." ? 1 : -1);
    else if (event.key === "+" || event.key === "=" || event.key === "-")
      tape.zoom(event.key === "-" ? 0.8 : 1.25, ...tape.placeOf(cross()));
    else if (event.key === "0") tape.fit();
    else if (event.key === "Escape" && from) {
      from = null;
      dropSweep(tape);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const onBlur = () => {
    nudging.end();
    from = null;
    tape.path = [];
    hoverAt(tape, null);
  };
  canvas.addEventListener("keydown", onKey);
  canvas.addEventListener("blur", onBlur);
  return () => {
    nudging.end();
    canvas.removeEventListener("keydown", onKey);
    canvas.removeEventListener("blur", onBlur);
  };
}

/** The first figure of each zone, in the order in which they lie along the tape. */
function firstOfEach(placed: readonly Placed[]): Placed[] {
  const first = new Map<string, Placed>();
  for (const each of [...placed].sort((a, b) => a.box.x0 - b.box.x0))
    if (!first.has(each.zone)) first.set(each.zone, each);
  return [...first.values()];
}
