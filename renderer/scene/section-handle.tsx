import { Html } from "@react-three/drei";
import { useThree } from "@react-three/fiber";
import { type PointerEvent, useMemo, useRef } from "react";
import { Vector3 } from "three";
import { type Section, type Standing, session } from "../document/session.ts";
import { words } from "../words.ts";
import type { ShellView } from "../worker/messages.ts";
import styles from "./scene.module.css";
import { sectionPoint, standingMatrix } from "./standing.ts";

/** A knob on the section, above the shell: dragged along, it moves the cut. Its slider in the bar is the way by keyboard. */
export function SectionHandle(props: {
  readonly shell: ShellView;
  readonly standing: Standing;
  readonly section: Section;
}) {
  const { shell, standing, section } = props;
  const camera = useThree((three) => three.camera);
  const size = useThree((three) => three.size);
  const held = useRef<{ x: number; y: number; at: number } | null>(null);
  const ends = useMemo(() => {
    const stand = standingMatrix(shell.size, standing);
    const at = (part: number) =>
      new Vector3(...sectionPoint({ ...section, at: part }, shell)).applyMatrix4(stand);
    return [at(0), at(1)] as const;
  }, [shell, standing, section]);

  /** How far along the shell a movement on screen goes: the movement as it lies on the axis's own picture. */
  const partOf = (dx: number, dy: number) => {
    const [from, to] = ends.map((end) => end.clone().project(camera));
    const ax = ((to.x - from.x) * size.width) / 2;
    const ay = ((from.y - to.y) * size.height) / 2;
    const square = ax * ax + ay * ay;
    return square > 1 ? (dx * ax + dy * ay) / square : 0;
  };
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    held.current = { x: event.clientX, y: event.clientY, at: section.at };
  };
  const onPointerMove = (event: PointerEvent) => {
    const hold = held.current;
    if (!hold) return;
    const at = hold.at + partOf(event.clientX - hold.x, event.clientY - hold.y);
    session.setState({ section: { ...section, at: Math.min(1, Math.max(0, at)) } });
  };
  const onPointerUp = () => {
    held.current = null;
  };
  return (
    <Html center position={ends[0].clone().lerp(ends[1], section.at)} zIndexRange={[4, 3]}>
      <div
        className={styles.handle}
        title={words.views.sectionHandle}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerUp}
        onPointerCancel={onPointerUp}
      />
    </Html>
  );
}
