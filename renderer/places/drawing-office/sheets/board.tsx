import { type KeyboardEvent, type PointerEvent, type ReactNode, useId, useRef } from "react";
import { useStore } from "zustand";
import { printLength } from "../../../../core/units/length.ts";
import { useProject, useResults, useSession } from "../../../desk.ts";
import { headed } from "../../../parts/names.ts";
import { asRead, wordsFor } from "../../../parts/refusal.ts";
import foot from "../../foot.module.css";
import { type Box, type Fit, fitInto, toSheet } from "./fit.ts";
import { Grid } from "./grid.tsx";
import type { Handle, Spot } from "./handle.ts";
import { HandleMark } from "./handle-mark.tsx";
import { sheetState } from "./sheet-state.ts";
import styles from "./sheets.module.css";
import { useSize } from "./use-size.ts";

/** Room beside the drawing for its dimensions, pixels. */
const MARGINS = { left: 62, right: 46, top: 32, bottom: 46 };

/**
 * A sheet of paper with a drawing that one works on by its handles. Keeps its scale while something is dragged, so that what
 * is held stays under the pointer.
 */
export function Board(props: {
  readonly title: string;
  readonly label: string;
  readonly hint: string;
  readonly box: Box;
  readonly handles: readonly Handle[];
  /** Paths of the figures that this sheet answers for. */
  readonly fields: readonly string[];
  readonly tools?: ReactNode;
  readonly draw: (fit: Fit) => ReactNode;
  readonly onKey?: (handle: Handle, key: string) => boolean;
  readonly onDoubleClick?: (spot: Spot) => void;
  /** What one is about to do, in place of the hint and the handle's figure. */
  readonly saying?: ReactNode;
  readonly onMove?: (spot: Spot) => void;
  readonly onClick?: (spot: Spot) => void;
  /** Sees the keys before anything else on the sheet does. */
  readonly onKeyBefore?: (event: KeyboardEvent) => void;
  /** Without its handles, while something else is done on it. */
  readonly quiet?: boolean;
}) {
  const { title, label, hint, box, handles, fields, tools, draw, onKey, quiet } = props;
  const paper = useRef<HTMLDivElement>(null);
  const size = useSize(paper);
  const dragging = useProject((s) => s.dragging !== null);
  const fit = useKeptFit(box, size, dragging);
  const hintId = useId();
  const spotOf = (event: { clientX: number; clientY: number; currentTarget: Element }, on: Fit): Spot => {
    const { left, top } = event.currentTarget.getBoundingClientRect();
    return toSheet(on, { x: event.clientX - left, y: event.clientY - top });
  };
  return (
    <section className={foot.foot} aria-label={title} onKeyDownCapture={props.onKeyBefore}>
      <header className={foot.head}>
        <h2>{title}</h2>
        {tools}
        {props.saying ?? <Readout handles={handles} hint={hint} hintId={hintId} />}
      </header>
      <div ref={paper} className={foot.paper}>
        {size && fit && (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the sheet takes the keys as a whole.
          // biome-ignore lint/a11y/useSemanticElements: a drawing that holds handles, no set of fields.
          <svg
            className={styles.sheet}
            width={size.width}
            height={size.height}
            aria-label={label}
            aria-describedby={hintId}
            role="group"
            onDoubleClick={(event) => props.onDoubleClick?.(spotOf(event, fit))}
            onPointerMove={(event: PointerEvent<SVGSVGElement>) => props.onMove?.(spotOf(event, fit))}
            onClick={(event) => props.onClick?.(spotOf(event, fit))}
          >
            <Grid fit={fit} width={size.width} height={size.height} />
            {draw(fit)}
            {!quiet &&
              handles.map((handle) => (
                <HandleMark
                  key={handle.id}
                  handle={handle}
                  fit={fit}
                  onKey={onKey && ((key) => onKey(handle, key))}
                />
              ))}
          </svg>
        )}
        <Wrong fields={fields} handles={handles} />
      </div>
    </section>
  );
}

function useKeptFit(box: Box, size: { width: number; height: number } | null, held: boolean): Fit | null {
  const kept = useRef<{ fit: Fit; size: object } | null>(null);
  if (!size) return null;
  if (!held || kept.current?.size !== size)
    kept.current = { fit: fitInto(box, size.width, size.height, MARGINS), size };
  return kept.current.fit;
}

/** The handle that is pointed at or held, by its name and figure; else how the sheet is worked on. */
function Readout(props: {
  readonly handles: readonly Handle[];
  readonly hint: string;
  readonly hintId: string;
}) {
  const { handles, hint, hintId } = props;
  const lengths = useSession((s) => s.lengths);
  const id = useStore(sheetState, (s) => s.handle);
  const handle = handles.find((each) => each.id === id);
  return (
    <>
      {handle && (
        <p className={styles.told} data-figures="" data-told="">
          {headed(handle.name)}: <strong>{handle.told((mm) => printLength(mm, lengths))}</strong>
        </p>
      )}
      <p id={hintId} className={handle ? "for-readers" : foot.hint} title={hint}>
        {hint}
      </p>
    </>
  );
}

/** What stands in the way of the shell among the figures of a sheet, and why the last move could not be made. */
function Wrong({
  fields,
  handles,
}: {
  readonly fields: readonly string[];
  readonly handles: readonly Handle[];
}) {
  const lengths = useSession((s) => s.lengths);
  const refusals = useResults((r) => r.refusals);
  const fault = useStore(sheetState, (s) => (handles.some(({ id }) => id === s.handle) ? s.fault : null));
  const own = refusals.filter(({ path }) => fields.some((field) => path.startsWith(field)));
  if (own.length === 0 && fault === null) return null;
  return (
    <div className={styles.wrong} role="alert">
      {fault !== null && <p>{asRead(fault, lengths)}</p>}
      {own.map((refusal) => (
        <p key={`${refusal.path} ${refusal.why}`}>{headed(wordsFor(refusal, lengths))}</p>
      ))}
    </div>
  );
}
