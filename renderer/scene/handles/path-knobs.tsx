import { Html } from "@react-three/drei";
import { useThree } from "@react-three/fiber";
import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import { type Matrix4, PerspectiveCamera, Vector3 } from "three";
import type { SurfacePlace, ZoneSpec } from "../../../core/project/schema.ts";
import type { Desk } from "../../desk.ts";
import type { Drag } from "../../document/project-store.ts";
import { session } from "../../document/session.ts";
import { zoneName } from "../../parts/names.ts";
import { nudged, withPoint } from "../../tools/free-band.ts";
import { outlineOf } from "../../tools/rim-places.ts";
import { replacing } from "../../tools/zone-edits.ts";
import { words } from "../../words.ts";
import { aimAt } from "../picking.ts";
import type { Figures } from "../use-figures.ts";
import styles from "./handles.module.css";

type Stroke = Extract<ZoneSpec, { kind: "stroke" }>;

/** Keys pressed within this of each other make one step of the history, ms. */
const KEYS_MS = 800;
/** One press of an arrow key, mm; with Shift ten times as far. */
const STEP = 10;

/** The points of a free band's path: dragged over the shell, or stepped by the arrow keys. */
export function PathKnobs(props: { readonly desk: Desk; readonly figures: Figures; readonly zone: Stroke }) {
  const { desk, figures, zone } = props;
  const { camera, size, gl } = useThree();
  const [points, setPoints] = useState<readonly (readonly number[] | null)[]>([]);
  const held = useRef<{ readonly drag: Drag; readonly from: Stroke; place: SurfacePlace } | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => {
    let wanted = true;
    desk.trials
      .points(desk.project.state.getState().project, zone.path)
      .then((found) => wanted && setPoints(found));
    return () => {
      wanted = false;
    };
  }, [desk, zone]);

  const hold = (index: number) => {
    held.current ??= {
      drag: desk.project.drag(
        words.steps.change(`${words.floor.handles.point(index + 1)} of ${zoneName(zone.id)}`),
      ),
      from: zone,
      place: zone.path[index],
    };
    return held.current;
  };
  const end = (keep: boolean) => {
    clearTimeout(timer.current);
    if (keep) held.current?.drag.keep();
    else held.current?.drag.drop();
    held.current = null;
  };
  const moveTo = async (index: number, spot: { x: number; y: number }) => {
    const hand = held.current;
    const { shell } = desk.results.getState();
    if (!hand || !shell || !(camera instanceof PerspectiveCamera)) return;
    const { section } = session.getState();
    const aim = aimAt(spot, { canvas: gl.domElement, camera, figures, shell, section });
    if (!aim) return;
    const [place] = await desk.trials.places(desk.project.state.getState().project, [aim]);
    if (place && held.current === hand) hand.drag.show(replacing(withPoint(hand.from, index, place)));
  };
  const onPointerDown = (event: PointerEvent<HTMLDivElement>, index: number) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    end(true);
    hold(index);
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>, index: number) => {
    if (!held.current || !event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = gl.domElement.getBoundingClientRect();
    void moveTo(index, { x: event.clientX - box.left, y: event.clientY - box.top });
  };
  const onKeyDown = (event: KeyboardEvent, index: number) => {
    const way = waysOf[event.key];
    const outline = outlineOf(desk.project.state.getState().project.shell.outline);
    const { shell } = desk.results.getState();
    if (!way || !outline || !shell) return;
    event.preventDefault();
    event.stopPropagation();
    const hand = hold(index);
    const far = STEP * (event.shiftKey ? 10 : 1);
    const { length, width, depth } = shell.size;
    hand.place = nudged(
      hand.place,
      [way[0] * far, way[1] * far],
      outline,
      "wall" in hand.place ? [length, depth] : [length, width],
    );
    hand.drag.show(replacing(withPoint(hand.from, index, hand.place)));
    clearTimeout(timer.current);
    timer.current = setTimeout(() => end(true), KEYS_MS);
  };
  const stand: Matrix4 = figures.stand.matrixWorld;
  if (points.length !== zone.path.length || size.width === 0) return null;
  return points.map((point, i) =>
    point ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: the points of a path are their places in it.
      <Html key={i} center position={new Vector3(...point).applyMatrix4(stand)} zIndexRange={[5, 4]}>
        <div
          role="application"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys move it.
          tabIndex={0}
          className={styles.knob}
          aria-label={words.floor.handles.pointOf(i + 1, zoneName(zone.id))}
          data-handle={`point ${i}`}
          onPointerDown={(event) => onPointerDown(event, i)}
          onPointerMove={(event) => onPointerMove(event, i)}
          onPointerUp={() => end(true)}
          onPointerCancel={() => end(false)}
          onKeyDown={(event) => onKeyDown(event, i)}
          onBlur={() => end(true)}
        />
      </Html>
    ) : null,
  );
}

const waysOf: Readonly<Record<string, readonly [number, number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
