import { useThree } from "@react-three/fiber";
import { type RefObject, useEffect, useRef } from "react";
import { Matrix4, PerspectiveCamera, Raycaster, Vector2, type Vector3 } from "three";
import { type Section, sameThing, select, session, type Thing } from "../document/session.ts";
import type { ShellView } from "../worker/messages.ts";
import { cutOf } from "./standing.ts";
import type { Figures } from "./use-figures.ts";

/** A line is pointed at from this far, pixels. */
const REACH_PX = 7;
/** A press that moves less than this is a click, pixels. */
const CLICK_PX = 4;

/** What the pointer is over becomes `hovered`, what is clicked `selected`; the readout is carried along beside it. */
export function usePointing(options: {
  readonly figures: Figures;
  readonly shell: ShellView | null;
  readonly section: Section | null;
  readonly readout: RefObject<HTMLDivElement | null>;
}): void {
  const latest = useRef(options);
  latest.current = options;
  const canvas = useThree((three) => three.gl.domElement);
  const camera = useThree((three) => three.camera);

  useEffect(() => {
    const { readout } = latest.current;
    let waiting = 0;
    let pressed: { x: number; y: number } | null = null;
    let at = { x: 0, y: 0 };

    const point = () => {
      waiting = 0;
      const thing = camera instanceof PerspectiveCamera ? thingAt(at, canvas, camera, latest.current) : null;
      const { hovered } = session.getState();
      if (!sameThing(hovered, thing)) session.setState({ hovered: thing });
      const box = readout.current;
      if (box) box.style.transform = `translate(${at.x + 16}px, ${at.y + 18}px)`;
    };
    const onMove = (event: PointerEvent) => {
      at = { x: event.offsetX, y: event.offsetY };
      // While one turns the shell nothing lights up.
      if (event.buttons !== 0) return;
      if (waiting === 0) waiting = requestAnimationFrame(point);
    };
    const onLeave = () => {
      cancelAnimationFrame(waiting);
      waiting = 0;
      session.setState({ hovered: null });
    };
    const onDown = (event: PointerEvent) => {
      pressed = event.button === 0 ? { x: event.offsetX, y: event.offsetY } : null;
    };
    const onUp = (event: PointerEvent) => {
      if (!pressed) return;
      const moved = Math.hypot(event.offsetX - pressed.x, event.offsetY - pressed.y);
      pressed = null;
      if (moved > CLICK_PX) return;
      at = { x: event.offsetX, y: event.offsetY };
      point();
      select(session.getState().hovered, event.shiftKey);
    };
    canvas.addEventListener("pointermove", onMove);
    canvas.addEventListener("pointerleave", onLeave);
    canvas.addEventListener("pointerdown", onDown);
    canvas.addEventListener("pointerup", onUp);
    return () => {
      cancelAnimationFrame(waiting);
      canvas.removeEventListener("pointermove", onMove);
      canvas.removeEventListener("pointerleave", onLeave);
      canvas.removeEventListener("pointerdown", onDown);
      canvas.removeEventListener("pointerup", onUp);
    };
  }, [canvas, camera]);
}

const raycaster = new Raycaster();
const back = new Matrix4();

function thingAt(
  at: { readonly x: number; readonly y: number },
  canvas: HTMLCanvasElement,
  camera: PerspectiveCamera,
  { figures, shell, section }: { figures: Figures; shell: ShellView | null; section: Section | null },
): Thing | null {
  if (!shell) return null;
  const { clientWidth, clientHeight } = canvas;
  raycaster.setFromCamera(new Vector2((2 * at.x) / clientWidth - 1, 1 - (2 * at.y) / clientHeight), camera);
  const ray = raycaster.ray.clone().applyMatrix4(back.copy(figures.stand.matrixWorld).invert());
  const cut = section && cutOf(section, shell);
  const kept = (p: Vector3) => !cut || cut.n[0] * p.x + cut.n[1] * p.y + cut.n[2] * p.z > cut.d;
  const hit = figures.shellFigure.pick(ray, kept);
  const zone = figures.zonesFigure.visible ? figures.zonesFigure.pick(ray, kept) : null;
  if (zone && zone.distance < (hit?.distance ?? Infinity)) return { kind: "zone", id: zone.id };
  if (!hit) return null;
  const pixel = (2 * hit.distance * Math.tan((camera.fov * Math.PI) / 360)) / clientHeight;
  const line = figures.linesFigure.near(hit.point, REACH_PX * pixel);
  if (line) return { kind: "transition", id: line.id };
  return { kind: "face", id: shell.faces[hit.face].id };
}
