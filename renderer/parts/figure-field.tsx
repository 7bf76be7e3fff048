import { type KeyboardEvent, type PointerEvent, useEffect, useId, useRef, useState } from "react";
import type { LengthStyle } from "../../core/units/length.ts";
import { words } from "../words.ts";
import { type Measure, printFigure, readFigure, steppedTo } from "./figure.ts";
import styles from "./figure-field.module.css";

/** Where a field's changes go. Both give back why a value cannot be taken, or null. */
export interface FigureTaker {
  /** A value that was typed. */
  take(value: number): string | null;
  /** Begins a drag over values, seen at once and kept as one step. */
  drag(): { show(value: number): string | null; keep(): void; drop(): void };
}

/** One step of the value for each of these many pixels. */
const PIXELS_A_STEP = 4;
/** Arrow keys pressed within this of each other make one step of the history, ms. */
const ARROWS_MS = 800;

/**
 * A figure with its unit: typed (sums and other units are read), dragged sideways on its label, or stepped by the arrow keys.
 * `wrong` is a standing complaint from elsewhere, shown beside it.
 */
export function FigureField(props: {
  readonly label: string;
  readonly value: number;
  readonly measure: Measure;
  readonly lengths: LengthStyle;
  readonly taker: FigureTaker;
  readonly wrong?: string | null;
  /** Names the field for tests and links: the figure's path. */
  readonly name?: string;
  /** It stands for several things that have different values: `value` is that of the first. */
  readonly mixed?: boolean;
}) {
  const { label, value, measure, lengths, taker, wrong = null, name, mixed = false } = props;
  const id = useId();
  const printed = mixed ? "" : printFigure(value, measure, lengths);
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const arrows = useArrows(taker);

  // A value that changes from elsewhere settles what was wrong here.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the value is the sign, not an ingredient.
  useEffect(() => setProblem(null), [value]);

  const outside = (wanted: number): string | null => {
    if (wanted >= measure.min && wanted <= measure.max) return null;
    const [told, least, most] = [wanted, measure.min, measure.max].map((n) =>
      printFigure(n, measure, lengths),
    );
    return words.figure.outside(label, told, least, most);
  };
  const commit = () => {
    arrows.end();
    if (typed === null) return;
    if (typed.trim() === printed) {
      setTyped(null);
      setProblem(null);
      return;
    }
    const reading = readFigure(typed, measure, lengths);
    const fault = reading.ok ? (outside(reading.value) ?? taker.take(reading.value)) : reading.problem;
    setProblem(fault);
    if (fault === null) setTyped(null);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Enter") commit();
    else if (event.key === "Escape") {
      setTyped(null);
      setProblem(null);
    } else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      const way = event.key === "ArrowUp" ? 1 : -1;
      const fine = event.altKey;
      const far = event.shiftKey ? 10 : 1;
      const by = way * far * measure.step * (fine && measure.kind !== "count" ? 0.1 : 1);
      setTyped(null);
      setProblem(arrows.show(steppedTo(value + by, measure, fine)));
    } else return;
    event.preventDefault();
  };

  const fault = problem ?? wrong;
  return (
    <div className={styles.field} data-wrong={fault !== null || undefined}>
      <DragLabel htmlFor={id} value={value} measure={measure} taker={taker} onProblem={setProblem}>
        {label}
      </DragLabel>
      <input
        id={id}
        name={name}
        className={styles.input}
        value={typed ?? printed}
        data-typing={typed === null ? undefined : ""}
        placeholder={mixed ? words.figure.mixed : undefined}
        data-figures=""
        autoComplete="off"
        spellCheck={false}
        aria-invalid={fault !== null || undefined}
        aria-describedby={fault === null ? undefined : `${id}-wrong`}
        onChange={(event) => setTyped(event.target.value)}
        onFocus={(event) => event.target.select()}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
      {fault !== null && (
        <p id={`${id}-wrong`} className={styles.wrong} role="alert">
          {fault}
        </p>
      )}
    </div>
  );
}

/** Arrow keys in a row are one drag: kept when they pause, when the field is left or something is typed. */
function useArrows(taker: FigureTaker) {
  const drag = useRef<ReturnType<FigureTaker["drag"]> | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const end = () => {
    clearTimeout(timer.current);
    drag.current?.keep();
    drag.current = null;
  };
  return {
    end,
    show(value: number) {
      drag.current ??= taker.drag();
      clearTimeout(timer.current);
      timer.current = setTimeout(end, ARROWS_MS);
      return drag.current.show(value);
    },
  };
}

function DragLabel(props: {
  readonly htmlFor: string;
  readonly value: number;
  readonly measure: Measure;
  readonly taker: FigureTaker;
  readonly onProblem: (problem: string | null) => void;
  readonly children: string;
}) {
  const { htmlFor, value, measure, taker, onProblem, children } = props;
  const held = useRef<{ x: number; value: number; drag: ReturnType<FigureTaker["drag"]> | null } | null>(
    null,
  );
  const dragged = useRef(false);
  const onPointerDown = (event: PointerEvent<HTMLLabelElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    held.current = { x: event.clientX, value, drag: null };
    dragged.current = false;
  };
  const onPointerMove = (event: PointerEvent) => {
    const hold = held.current;
    if (!hold) return;
    // Borders between panels are for pointers that hold nothing: looked for, they have the page laid out at each move.
    event.preventDefault();
    const steps = Math.trunc((event.clientX - hold.x) / PIXELS_A_STEP);
    if (steps === 0 && !hold.drag) return;
    hold.drag ??= taker.drag();
    dragged.current = true;
    const fine = event.altKey;
    const by = steps * measure.step * (fine ? 0.1 : 1);
    onProblem(hold.drag.show(steppedTo(hold.value + by, measure, fine)));
  };
  const end = (keep: boolean) => {
    const hold = held.current;
    held.current = null;
    if (keep) hold?.drag?.keep();
    else hold?.drag?.drop();
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the field takes the keys; a click is only kept from following a drag.
    <label
      htmlFor={htmlFor}
      className={styles.label}
      title={words.drawing.dragHint}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={() => end(true)}
      onPointerCancel={() => end(false)}
      onClick={(event) => {
        // A drag is no click: it must not put the cursor into the field.
        if (dragged.current) event.preventDefault();
      }}
    >
      {children}
    </label>
  );
}
