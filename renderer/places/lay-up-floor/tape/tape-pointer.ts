import type { Point } from "./flat-lines.ts";
import { beginMove, chooseAt, dropSweep, holdAt, hoverAt, layOffered, sweepTo } from "./tape-acts.ts";
import type { TapeBoard } from "./tape-board.ts";
import { isLaying } from "./tape-state.ts";

/** A press that moves less than this is a click, pixels. */
const CLICK_PX = 4;
/** One notch of a wheel, pixels, and how much nearer it brings. */
const NOTCH = 100;
const NEARER = 1.25;

type Held =
  | { readonly kind: "nothing" }
  | { readonly kind: "paper"; x: number; y: number }
  | { readonly kind: "sweep"; readonly from: Point }
  | { readonly kind: "zone"; readonly move: NonNullable<ReturnType<typeof beginMove>> };

/** Pointer and wheel on the tape: hover, click, drag what is under it, or the paper; two fingers zoom. Gives back how to leave. */
export function followPointer(tape: TapeBoard): () => void {
  const { canvas } = tape;
  const fingers = new Map<number, { x: number; y: number }>();
  let pressed: {
    readonly x: number;
    readonly y: number;
    readonly button: number;
    readonly point: Point;
  } | null = null;
  let held: Held = { kind: "nothing" };

  const cursor = (point: Point) => {
    const grip = isLaying() ? null : holdAt(tape, point);
    canvas.style.cursor = isLaying()
      ? "crosshair"
      : grip === null
        ? "default"
        : grip.kind === "edge"
          ? "ns-resize"
          : "ew-resize";
  };
  /** What a drag that begins at a press takes along. */
  const take = ({ x, y, button, point }: NonNullable<typeof pressed>): Held => {
    if (isLaying())
      return button === 0 && sweepTo(tape, point, point)
        ? { kind: "sweep", from: point }
        : { kind: "paper", x, y };
    const grip = button === 0 ? holdAt(tape, point) : null;
    const move = grip && beginMove(tape, grip, point);
    return move ? { kind: "zone", move } : { kind: "paper", x, y };
  };
  const pinch = (event: PointerEvent) => {
    const [a, b] = [...fingers.values()];
    const before = Math.hypot(a.x - b.x, a.y - b.y);
    fingers.set(event.pointerId, { x: event.offsetX, y: event.offsetY });
    const [c, d] = [...fingers.values()];
    if (before > 0) tape.zoom(Math.hypot(c.x - d.x, c.y - d.y) / before, (c.x + d.x) / 2, (c.y + d.y) / 2);
    tape.pan((c.x + d.x - a.x - b.x) / 2, (c.y + d.y - a.y - b.y) / 2);
  };
  const letGo = (keep: boolean) => {
    if (held.kind === "zone") held.move[keep ? "keep" : "drop"]();
    if (held.kind === "sweep") {
      if (keep) void layOffered(tape);
      else dropSweep(tape);
    }
    pressed = null;
    held = { kind: "nothing" };
    tape.redraw();
  };

  const onDown = (event: PointerEvent) => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, { x: event.offsetX, y: event.offsetY });
    if (fingers.size > 1) {
      letGo(false);
      return;
    }
    const { offsetX: x, offsetY: y } = event;
    pressed = { x, y, button: event.button, point: tape.pointAt(x, y) };
  };
  const onMove = (event: PointerEvent) => {
    if (fingers.size > 1) {
      pinch(event);
      return;
    }
    const { offsetX: x, offsetY: y } = event;
    const point = tape.pointAt(x, y);
    if (!pressed) {
      hoverAt(tape, point);
      cursor(point);
      return;
    }
    if (held.kind === "nothing" && Math.hypot(x - pressed.x, y - pressed.y) > CLICK_PX) held = take(pressed);
    tape.point = point;
    if (held.kind === "paper") {
      tape.pan(x - held.x, y - held.y);
      held.x = x;
      held.y = y;
    } else if (held.kind === "sweep") sweepTo(tape, held.from, point);
    else if (held.kind === "zone") held.move.show(point, event.altKey);
  };
  const onUp = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
    if (pressed && held.kind === "nothing" && event.button === 0) {
      const { point } = pressed;
      if (isLaying()) {
        hoverAt(tape, point);
        void layOffered(tape);
      } else chooseAt(tape, point, event.shiftKey || event.ctrlKey || event.metaKey);
    }
    letGo(true);
  };
  const onCancel = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
    letGo(false);
  };
  const onLeave = () => {
    if (!pressed) hoverAt(tape, null);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.key !== "Escape" || held.kind === "nothing") return;
    event.stopPropagation();
    letGo(false);
  };
  const onWheel = (event: WheelEvent) => {
    event.preventDefault();
    // Sideways, or with shift held, the wheel moves the tape; else it brings it nearer, as does a pinch on a touchpad.
    if (!event.ctrlKey && (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)))
      tape.pan(-(event.deltaX || event.deltaY), 0);
    else {
      const notches = event.deltaY / (event.ctrlKey ? NOTCH / 8 : NOTCH);
      tape.zoom(NEARER ** -notches, event.offsetX, event.offsetY);
    }
  };

  canvas.addEventListener("pointerdown", onDown);
  canvas.addEventListener("pointermove", onMove);
  canvas.addEventListener("pointerup", onUp);
  canvas.addEventListener("pointercancel", onCancel);
  canvas.addEventListener("pointerleave", onLeave);
  canvas.addEventListener("wheel", onWheel, { passive: false });
  addEventListener("keydown", onKey, { capture: true });
  return () => {
    canvas.removeEventListener("pointerdown", onDown);
    canvas.removeEventListener("pointermove", onMove);
    canvas.removeEventListener("pointerup", onUp);
    canvas.removeEventListener("pointercancel", onCancel);
    canvas.removeEventListener("pointerleave", onLeave);
    canvas.removeEventListener("wheel", onWheel);
    removeEventListener("keydown", onKey, { capture: true });
  };
}
