import { select, selectedZones, session } from "../../../document/session.ts";
import { zoneName } from "../../../parts/names.ts";
import { layRib, layRow } from "../../../tools/ribs.ts";
import { named, replacing } from "../../../tools/zone-edits.ts";
import { words } from "../../../words.ts";
import { layNew } from "../acts.ts";
import { dragged, type Grip, type Ground, gripAt, movedBy, type Point } from "./grips.ts";
import { findAt } from "./reading.ts";
import type { TapeBoard } from "./tape-board.ts";

/** How near one must point, pixels. */
const REACH_PX = 7;

/** What edits on the tape work with; null where a level face is shown or the rim cannot be built. */
export function groundOf(tape: TapeBoard): Ground | null {
  const { board, outline } = tape;
  if (!board || board.face || !outline) return null;
  return { project: tape.desk.project.state.getState().project, outline, placed: board.placed };
}

/** Lights up what is under the point, here and in the scene. */
export function hoverAt(tape: TapeBoard, point: Point | null): void {
  tape.point = point;
  if (!point || !tape.board) session.setState({ hovered: null });
  else {
    const { figure, other } = findAt(tape.board, point, REACH_PX * tape.grain);
    session.setState({ hovered: figure ? { kind: "zone", id: figure.zone } : other });
  }
  tape.redraw();
}

/** Chooses what is under the point. */
export function chooseAt(tape: TapeBoard, point: Point, more: boolean): void {
  if (!tape.board) return;
  const { figure, other } = findAt(tape.board, point, REACH_PX * tape.grain);
  select(figure ? { kind: "zone", id: figure.zone } : other, more);
}

/** What a press at the point would get hold of; locked zones are left as they are. */
export function holdAt(tape: TapeBoard, point: Point): Grip | null {
  const ground = groundOf(tape);
  if (!ground) return null;
  const grip = gripAt(ground, selectedZones(session.getState()), point, REACH_PX * tape.grain);
  return grip && !session.getState().locked.has(grip.zone) ? grip : null;
}

/** Lays a rib, or a row from one station to the other, by the house rules, and chooses it. */
export function layAt(tape: TapeBoard, from: number, to: number): void {
  const ground = groundOf(tape);
  if (!ground) return;
  const { project, outline } = ground;
  const [zone] = named(project, [
    Math.abs(to - from) < REACH_PX * tape.grain
      ? layRib(project, outline, to)
      : layRow(project, outline, from, to),
  ]);
  layNew(tape.desk, [zone], words.steps.lay(zoneName(zone.id)));
}

/** Moves what a grip holds: each showing starts from how it was at the beginning; kept or dropped as one step. */
export function beginMove(tape: TapeBoard, grip: Grip, from: Point) {
  const ground = groundOf(tape);
  const zone = ground?.project.layup.find(({ id }) => id === grip.zone);
  if (!ground || !zone) return null;
  if (!selectedZones(session.getState()).includes(grip.zone)) select({ kind: "zone", id: grip.zone });
  const drag = tape.desk.project.drag(stepFor(grip));
  return {
    show(to: Point, free: boolean) {
      const after = dragged(grip, zone, ground, from, to, free);
      if (drag.show(replacing(after)).ok) tape.moved = movedBy(zone, after, ground.outline);
      tape.redraw();
    },
    keep: drag.keep,
    drop() {
      drag.drop();
      tape.moved = null;
    },
  };
}

export function stepFor(grip: Grip): string {
  const name = zoneName(grip.zone);
  if (grip.kind === "slide") return words.steps.slide(name);
  return grip.kind === "end"
    ? words.steps.change(words.tape.endOf(name))
    : words.steps.change(words.tape.widthOf(name));
}
