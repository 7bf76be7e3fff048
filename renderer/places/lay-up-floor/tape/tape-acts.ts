import { select, selectedZones, session } from "../../../document/session.ts";
import { zoneName } from "../../../parts/names.ts";
import type { Aim } from "../../../tools/tool.ts";
import { replacing } from "../../../tools/zone-edits.ts";
import { words } from "../../../words.ts";
import type { Point } from "./flat-lines.ts";
import { dragged, type Grip, gripAt, movedBy } from "./grips.ts";
import { findAt } from "./reading.ts";
import { aimOnTape } from "./tape-aim.ts";
import type { TapeBoard } from "./tape-board.ts";
import { isLaying } from "./tape-state.ts";

/** How near one must point, pixels. */
const REACH_PX = 7;

/** What is pointed at, as the tool in hand takes it: the same as if one pointed at the shell there. */
function aimAt(tape: TapeBoard, point: Point): Aim | null {
  const { ground } = tape;
  return ground && aimOnTape(ground.board, point, ground.outline, ground.lines);
}

/** Lights up what is under the point, here and in the scene; a tool in hand offers what it would lay there. */
export function hoverAt(tape: TapeBoard, point: Point | null): void {
  tape.point = point;
  const { hand } = tape.desk;
  if (isLaying()) {
    hand.aim(point && aimAt(tape, point));
    void lightOffer(tape);
  } else if (!point || !tape.board) session.setState({ hovered: null });
  else {
    const { figure, other } = findAt(tape.board, point, REACH_PX * tape.grain);
    session.setState({ hovered: figure ? { kind: "zone", id: figure.zone } : other });
  }
  tape.redraw();
}

/** Draws on with the tool in hand, from where its way began; false where it has nothing to draw from there. */
export function sweepTo(tape: TapeBoard, from: Point, to: Point): boolean {
  const { hand } = tape.desk;
  const first = aimAt(tape, from);
  if (tape.path.length === 0 && !(first && hand.sweeps(first))) return false;
  tape.path = tape.path.length === 0 ? [from, to] : [...tape.path, to];
  tape.point = to;
  hand.sweep(tape.path.flatMap((point) => aimAt(tape, point) ?? []));
  void lightOffer(tape);
  tape.redraw();
  return true;
}

/** Lays what the tool offers, once it is made of what was pointed at last, and ends its way. */
export async function layOffered(tape: TapeBoard): Promise<void> {
  const { hand } = tape.desk;
  tape.path = [];
  await hand.settled();
  await hand.lay();
}

/** Drops the way of the tool in hand. */
export function dropSweep(tape: TapeBoard): void {
  tape.path = [];
  tape.desk.hand.aim(null);
  tape.redraw();
}

async function lightOffer({ desk: { hand } }: TapeBoard): Promise<void> {
  await hand.settled();
  if (isLaying()) session.setState({ hovered: hand.offer.getState().offer?.lights ?? null });
}

/** Chooses what is under the point. */
export function chooseAt(tape: TapeBoard, point: Point, more: boolean): void {
  if (!tape.board) return;
  const { figure, other } = findAt(tape.board, point, REACH_PX * tape.grain);
  select(figure ? { kind: "zone", id: figure.zone } : other, more);
}

/** What a press at the point would get hold of; locked zones are left as they are. */
export function holdAt(tape: TapeBoard, point: Point): Grip | null {
  const { ground } = tape;
  if (!ground) return null;
  const grip = gripAt(ground, selectedZones(session.getState()), point, REACH_PX * tape.grain);
  return grip && !session.getState().locked.has(grip.zone) ? grip : null;
}

/** Moves what a grip holds: each showing starts from how it was at the beginning; kept or dropped as one step. */
export function beginMove(tape: TapeBoard, grip: Grip, from: Point) {
  const { ground } = tape;
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
