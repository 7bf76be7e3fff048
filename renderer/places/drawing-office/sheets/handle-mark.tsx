import { type KeyboardEvent, type PointerEvent, useRef } from "react";
import { printLength } from "../../../../core/units/length.ts";
import { useDesk, useResults, useSession } from "../../../desk.ts";
import type { Drag, Edited } from "../../../document/project-store.ts";
import { headed } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { type Fit, markAt, toScreen, toSheet } from "./fit.ts";
import { type Handle, onward, type Spot } from "./handle.ts";
import { grainOf, nudged } from "./moving.ts";
import { sheetState } from "./sheet-state.ts";
import styles from "./sheets.module.css";

/** Keys pressed within this of each other make one step of the history, ms. */
const KEYS_MS = 800;
/** Less than this is a click, pixels. */
const STILL = 3;

interface Held {
  readonly handle: Handle;
  readonly drag: Drag;
  /** Where the handle is wanted, mm on the sheet, and where the pointer first was. */
  spot: Spot;
  readonly pressed: Spot | null;
  moved: boolean;
}

/** A handle on a sheet: dragged by the pointer, nudged by the arrow keys; each is one step of the history. */
export function HandleMark(props: {
  readonly handle: Handle;
  readonly fit: Fit;
  /** Keys beyond the arrows. Gives back whether it took the key. */
  readonly onKey?: (key: string) => boolean;
}) {
  const { handle, fit, onKey } = props;
  const { project } = useDesk();
  const lengths = useSession((s) => s.lengths);
  const wrong = useResults((r) => r.refusals.some(({ path }) => path.startsWith(handle.field)));
  const held = useRef<Held | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const at = markAt(fit, handle);

  const hold = (pressed: Spot | null): Held => {
    held.current ??= {
      handle,
      drag: project.drag(words.steps.change(handle.name)),
      spot: handle.at,
      pressed,
      moved: false,
    };
    return held.current;
  };
  const show = (hand: Held, fine: boolean) =>
    sheetState.setState({
      fault: faultOf(hand.drag.show(hand.handle.to(hand.spot, grainOf(lengths, fine)))),
    });
  const end = (keep: boolean) => {
    clearTimeout(timer.current);
    const hand = held.current;
    held.current = null;
    if (!hand) return;
    if (keep && hand.moved) hand.drag.keep();
    else hand.drag.drop();
    sheetState.setState({ fault: null });
  };

  const onPointerDown = (event: PointerEvent<SVGGElement>) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    end(true);
    event.currentTarget.setPointerCapture(event.pointerId);
    hold({ x: event.clientX, y: event.clientY });
  };
  const onPointerMove = (event: PointerEvent<SVGGElement>) => {
    const hand = held.current;
    if (!hand?.pressed) return;
    // As in a figure's field: no border between panels is looked for.
    event.preventDefault();
    const by = { x: event.clientX - hand.pressed.x, y: event.clientY - hand.pressed.y };
    if (!hand.moved && Math.hypot(by.x, by.y) < STILL) return;
    hand.moved = true;
    const from = toScreen(fit, hand.handle.at);
    hand.spot = toSheet(fit, onward(from, by, 1));
    show(hand, event.altKey);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const way = arrows[event.key];
    if (event.key === "Escape" && held.current) end(false);
    else if (way) {
      const hand = hold(null);
      hand.moved = true;
      const grain = grainOf(lengths, event.altKey) * (event.shiftKey ? 10 : 1);
      hand.spot = nudged(hand.handle, hand.spot, way, grain);
      show(hand, event.altKey);
      clearTimeout(timer.current);
      timer.current = setTimeout(() => end(true), KEYS_MS);
    } else if (!onKey?.(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const lit = (on: boolean) => sheetState.setState({ handle: on ? handle.id : null });
  return (
    <g
      role="slider"
      tabIndex={0}
      className={styles.handle}
      data-shape={handle.shape}
      data-wrong={wrong || undefined}
      data-handle={handle.id}
      transform={`translate(${at.x} ${at.y})`}
      aria-label={headed(handle.name)}
      aria-valuenow={Math.round(handle.value)}
      aria-valuetext={handle.told((mm) => printLength(mm, lengths))}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onDoubleClick={(event) => event.stopPropagation()}
      onPointerUp={() => end(true)}
      onPointerCancel={() => end(false)}
      onPointerEnter={() => lit(true)}
      onPointerLeave={() => lit(false)}
      onKeyDown={onKeyDown}
      onFocus={() => lit(true)}
      onBlur={() => {
        end(true);
        lit(false);
      }}
    >
      <circle className={styles.grasp} r="12" />
      {handle.shape === "edge" && (
        <rect className={styles.knob} x="-5" y="-5" width="10" height="10" rx="2" />
      )}
      {handle.shape === "point" && <circle className={styles.knob} r="5.5" />}
      {handle.shape === "centre" && <path className={styles.cross} d="M-6 0H6M0-6V6" />}
    </g>
  );
}

const arrows: Readonly<Record<string, Spot>> = {
  ArrowRight: { x: 1, y: 0 },
  ArrowLeft: { x: -1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
};

const faultOf = (edited: Edited): string | null =>
  edited.ok ? null : edited.problems.map((problem) => problem.sentence).join(" ");
