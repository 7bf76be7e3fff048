import { Html } from "@react-three/drei";
import { useThree } from "@react-three/fiber";
import { type KeyboardEvent, type PointerEvent, useMemo, useRef } from "react";
import { type Matrix4, Vector3 } from "three";
import { useStore } from "zustand";
import { printLength } from "../../../core/units/length.ts";
import type { Desk } from "../../desk.ts";
import type { Drag } from "../../document/project-store.ts";
import { session } from "../../document/session.ts";
import { headed, zoneName } from "../../parts/names.ts";
import { type Handle, handlesOf } from "../../tools/handles.ts";
import { figureNear, pointAtFigure, type Ruler } from "../../tools/ruler.ts";
import { replacing } from "../../tools/zone-edits.ts";
import { words } from "../../words.ts";
import type { Figures } from "../use-figures.ts";
import styles from "./handles.module.css";
import { PathKnobs } from "./path-knobs.tsx";

/** Keys pressed within this of each other make one step of the history, ms. */
const KEYS_MS = 800;

/** The handles of the one zone that is chosen: each a slider, for the pointer and for the arrow keys alike. */
export function Handles({ desk, figures }: { readonly desk: Desk; readonly figures: Figures }) {
  const only = useStore(session, ({ place, selected, locked }) => {
    const [thing] = selected;
    const fits = place === "lay-up-floor" && selected.length === 1 && thing.kind === "zone";
    return fits && !locked.has(thing.id) ? thing.id : null;
  });
  const spec = useStore(desk.project.state, (s) => s.project.layup.find(({ id }) => id === only));
  const laid = useStore(desk.results, (r) => r.zones.find(({ id }) => id === only));
  const shell = useStore(desk.results, (r) => r.shell);
  const lines = useStore(desk.results, (r) => r.lines);
  const camera = useThree((three) => three.camera);
  const standing = useStore(session, (s) => s.standing[s.place]);
  const stand = figures.stand.matrixWorld;
  // The eye as it was when the zone was chosen: handles do not wander while one turns the shell.
  // biome-ignore lint/correctness/useExhaustiveDependencies: chosen anew with the zone and the way it stands.
  const eye = useMemo(
    () => camera.position.clone().applyMatrix4(stand.clone().invert()).toArray(),
    [camera, stand, standing, only],
  );
  if (!spec || !laid || !shell || laid.spec.kind !== spec.kind) return null;
  if (spec.kind === "stroke") return <PathKnobs key={spec.id} desk={desk} figures={figures} zone={spec} />;
  const { project } = desk.project.state.getState();
  return handlesOf(spec, laid, { project, shell, lines, eye }).map((handle) => (
    <Knob key={`${spec.id} ${handle.id}`} desk={desk} zone={spec.id} handle={handle} stand={stand} />
  ));
}

interface Held {
  readonly handle: Handle;
  readonly drag: Drag;
  value: number;
}

function Knob(props: {
  readonly desk: Desk;
  readonly zone: string;
  readonly handle: Handle;
  readonly stand: Matrix4;
}) {
  const { desk, zone, handle, stand } = props;
  const camera = useThree((three) => three.camera);
  const size = useThree((three) => three.size);
  const canvas = useThree((three) => three.gl.domElement);
  const lengths = useStore(session, (s) => s.lengths);
  const held = useRef<Held | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);

  /** What is held keeps the ruler that it was taken by: the shell under it is laid anew meanwhile. */
  const { ruler } = held.current?.handle ?? handle;
  const position = new Vector3(...pointAtFigure(ruler, handle.value)).applyMatrix4(stand);
  const told = printLength(handle.mm(handle.value), lengths);

  const hold = () => {
    held.current ??= {
      handle,
      drag: desk.project.drag(words.steps.change(`${handle.label} of ${zoneName(zone)}`)),
      value: handle.value,
    };
    return held.current;
  };
  const show = (hand: Held, fine: boolean) =>
    hand.drag.show((draft) => {
      const own = draft.layup.find(({ id }) => id === zone);
      if (own) replacing(hand.handle.moved(structuredCopy(own), hand.value, fine))(draft);
    });
  const end = (keep: boolean) => {
    clearTimeout(timer.current);
    const hand = held.current;
    held.current = null;
    if (keep) hand?.drag.keep();
    else hand?.drag.drop();
  };
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    end(true);
    hold();
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>) => {
    const hand = held.current;
    if (!hand || !event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = canvas.getBoundingClientRect();
    const spot = { x: event.clientX - box.left, y: event.clientY - box.top };
    const seen = seenAs(hand.handle.ruler, stand, (p) => {
      p.project(camera);
      return [((p.x + 1) * size.width) / 2, ((1 - p.y) * size.height) / 2];
    });
    hand.value = figureNear(hand.handle.ruler, seen, spot, hand.value, hand.handle.reach);
    show(hand, event.altKey);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const way = waysOf[event.key];
    if (event.key === "Escape" && held.current) end(false);
    else if (way !== undefined) {
      const hand = hold();
      hand.value += way * hand.handle.step * (event.shiftKey ? 10 : 1) * (event.altKey ? 0.1 : 1);
      show(hand, event.altKey);
      clearTimeout(timer.current);
      timer.current = setTimeout(() => end(true), KEYS_MS);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <Html center position={position} zIndexRange={[5, 4]}>
      <div
        role="slider"
        tabIndex={0}
        className={styles.knob}
        aria-label={headed(`${handle.label}, ${zoneName(zone)}`)}
        aria-valuenow={Math.round(handle.mm(handle.value))}
        aria-valuetext={told}
        data-handle={handle.id}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={() => end(true)}
        onPointerCancel={() => end(false)}
        onKeyDown={onKeyDown}
        onBlur={() => end(true)}
      >
        <span data-figures="" aria-hidden="true">
          {told}
        </span>
      </div>
    </Html>
  );
}

const waysOf: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 };

/** A plain copy of a part of a draft. */
const structuredCopy = <T,>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

function seenAs({ points }: Ruler, stand: Matrix4, project: (p: Vector3) => [number, number]): Float64Array {
  const seen = new Float64Array((2 * points.length) / 3);
  const p = new Vector3();
  for (let i = 0; i < points.length / 3; i++) {
    p.set(points[3 * i], points[3 * i + 1], points[3 * i + 2]).applyMatrix4(stand);
    seen.set(project(p), 2 * i);
  }
  return seen;
}
