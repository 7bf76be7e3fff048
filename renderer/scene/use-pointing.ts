import { useThree } from "@react-three/fiber";
import { type RefObject, useEffect, useRef } from "react";
import { PerspectiveCamera } from "three";
import type { Desk } from "../desk.ts";
import { type Section, sameThing, select, session, type Thing } from "../document/session.ts";
import type { Aim } from "../tools/tool.ts";
import type { ShellView } from "../worker/messages.ts";
import { aimAt, type Looking, thingAt, zonesIn } from "./picking.ts";
import { pointTaker } from "./point-taker.ts";
import type { Figures } from "./use-figures.ts";

/** A press that moves less than this is a click, pixels. */
const CLICK_PX = 4;

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** What a press is about: a click or turning the shell, a drag of the tool in hand, or a box round zones. */
type Press =
  | { readonly kind: "look"; readonly at: Spot }
  | { readonly kind: "sweep"; readonly at: Spot; readonly path: Aim[] }
  | { readonly kind: "box"; readonly at: Spot };

/**
 * What the pointer is over becomes `hovered`, or what the tool in hand offers; a click chooses or lays, a drag of a tool paints,
 * a drag with Shift chooses all in a box. The readout is carried along beside it.
 */
export function usePointing(options: {
  readonly desk: Desk;
  readonly figures: Figures;
  readonly shell: ShellView | null;
  readonly section: Section | null;
  readonly readout: RefObject<HTMLDivElement | null>;
  readonly box: RefObject<HTMLDivElement | null>;
}): void {
  const latest = useRef(options);
  latest.current = options;
  const canvas = useThree((three) => three.gl.domElement);
  const camera = useThree((three) => three.camera);

  useEffect(() => {
    let press: Press | null = null;
    let at: Spot = { x: 0, y: 0 };

    const looking = (): Looking | null => {
      const { figures, shell, section } = latest.current;
      return shell && camera instanceof PerspectiveCamera
        ? { canvas, camera, figures, shell, section }
        : null;
    };
    const painting = () => session.getState().place === "lay-up-floor" && session.getState().tool !== null;
    const light = (thing: Thing | null) => {
      if (!sameThing(session.getState().hovered, thing)) session.setState({ hovered: thing });
    };
    const point = () => {
      const look = looking();
      const { hand } = latest.current.desk;
      if (press?.kind === "box") return drawBox(latest.current.box.current, press.at, at);
      if (press?.kind === "sweep") {
        const aim = look && aimAt(at, look);
        if (aim) press.path.push(aim);
        hand.sweep(press.path);
      } else if (pointTaker()) {
        pointTaker()?.point(look && aimAt(at, look));
        light(null);
      } else if (painting()) {
        hand.aim(look && aimAt(at, look));
        light(hand.offer.getState().offer?.lights ?? null);
      } else light(look && thingAt(at, look));
      const box = latest.current.readout.current;
      if (box) box.style.transform = `translate(${at.x + 16}px, ${at.y + 18}px)`;
    };
    const onMove = (event: PointerEvent) => {
      at = { x: event.offsetX, y: event.offsetY };
      // While one turns the shell nothing lights up. Browsers tell of moves once a frame: to wait for one would be to wait for the next.
      if (event.buttons === 0 || (press && press.kind !== "look")) point();
    };
    const onLeave = () => {
      if (press && press.kind !== "look") return;
      latest.current.desk.hand.aim(null);
      session.setState({ hovered: null });
    };
    /** Before the orbit hears of it: a press that paints or draws a box does not turn the shell. */
    const onDown = (event: PointerEvent) => {
      press = null;
      if (event.button !== 0) return;
      at = { x: event.offsetX, y: event.offsetY };
      press = { kind: "look", at };
      const look = looking();
      if (!look || event.altKey) return;
      if (painting()) {
        const aim = aimAt(at, look);
        if (aim && latest.current.desk.hand.sweeps(aim)) press = { kind: "sweep", at, path: [aim] };
      } else if (event.shiftKey && session.getState().place === "lay-up-floor") press = { kind: "box", at };
      if (press.kind === "look") return;
      event.stopImmediatePropagation();
      canvas.setPointerCapture(event.pointerId);
    };
    const onUp = (event: PointerEvent) => {
      const was = press;
      press = null;
      if (!was) return;
      at = { x: event.offsetX, y: event.offsetY };
      const still = Math.hypot(at.x - was.at.x, at.y - was.at.y) <= CLICK_PX;
      const look = looking();
      const { desk, box } = latest.current;
      drawBox(box.current, null, at);
      if (still) {
        point();
        const taker = pointTaker();
        const aim = taker && look && aimAt(at, look);
        if (aim) taker.click(aim);
        else if (taker) return;
        else if (painting()) void layWhenOffered(desk);
        else select(session.getState().hovered, event.shiftKey);
      } else if (was.kind === "sweep") {
        const aim = look && aimAt(at, look);
        desk.hand.sweep(aim ? [...was.path, aim] : was.path);
        void layWhenOffered(desk);
      } else if (was.kind === "box" && look) {
        const { selected } = session.getState();
        const ids = zonesIn(was.at, at, look).filter((id) => !selected.some((thing) => thing.id === id));
        session.setState({ selected: [...selected, ...ids.map((id) => ({ kind: "zone" as const, id }))] });
      }
    };
    const onCancel = () => {
      if (press && press.kind !== "look") {
        drawBox(latest.current.box.current, null, at);
        latest.current.desk.hand.aim(null);
      }
      press = null;
    };
    const onKey = (event: KeyboardEvent) => {
      if (event.key === "Escape") onCancel();
    };
    canvas.addEventListener("pointermove", onMove);
    canvas.addEventListener("pointerleave", onLeave);
    canvas.addEventListener("pointerdown", onDown, { capture: true });
    canvas.addEventListener("pointerup", onUp);
    canvas.addEventListener("pointercancel", onCancel);
    addEventListener("keydown", onKey);
    return () => {
      canvas.removeEventListener("pointermove", onMove);
      canvas.removeEventListener("pointerleave", onLeave);
      canvas.removeEventListener("pointerdown", onDown, { capture: true });
      canvas.removeEventListener("pointerup", onUp);
      canvas.removeEventListener("pointercancel", onCancel);
      removeEventListener("keydown", onKey);
    };
  }, [canvas, camera]);
}

/** Lays what is offered, once what was asked for last has been made of the ground. */
const layWhenOffered = async (desk: Desk) => {
  await desk.hand.settled();
  await desk.hand.lay();
};

function drawBox(box: HTMLDivElement | null, from: Spot | null, to: Spot): void {
  if (!box) return;
  box.hidden = from === null;
  if (!from) return;
  box.style.transform = `translate(${Math.min(from.x, to.x)}px, ${Math.min(from.y, to.y)}px)`;
  box.style.width = `${Math.abs(to.x - from.x)}px`;
  box.style.height = `${Math.abs(to.y - from.y)}px`;
}
