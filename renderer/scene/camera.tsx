import { OrbitControls } from "@react-three/drei";
import { useThree } from "@react-three/fiber";
import { type ComponentRef, useEffect, useRef } from "react";
import { PerspectiveCamera, type Vector3 } from "three";
import { useStore } from "zustand";
import { type Standing, session } from "../document/session.ts";
import type { ShellView } from "../worker/messages.ts";
import { inShowroom } from "./as-seen.ts";
import { coveredIn } from "./covered.ts";
import { wholeShell } from "./whole-shell.ts";

/** How near and how far one may go, mm. */
const NEAREST = 350;
const FURTHEST = 60_000;

/** Orbit, pan and zoom by the pointer; a view asked for shows the whole shell. */
export function Camera({
  shell,
  standing,
}: {
  readonly shell: ShellView | null;
  readonly standing: Standing;
}) {
  const camera = useThree((three) => three.camera);
  const invalidate = useThree((three) => three.invalidate);
  const canvas = useThree((three) => three.size);
  const element = useThree((three) => three.gl.domElement);
  const view = useStore(session, (s) => s.view);
  const controls = useRef<ComponentRef<typeof OrbitControls>>(null);
  const showroom = useStore(session, inShowroom);
  const outside = useStore(session, (s) => inShowroom(s) && s.side === "outside");
  const fitted = useRef<{
    readonly wanted: string;
    readonly canvas: typeof canvas;
    readonly eye: Vector3;
  } | null>(null);

  useEffect(() => {
    if (!shell || !controls.current || !(camera instanceof PerspectiveCamera) || canvas.width === 0) return;
    // A figure that changes while one looks at the shell does not move one's eye.
    const from = outside ? "outside" : view.name;
    const wanted = `${from} ${view.asked} ${showroom}`;
    const last = fitted.current;
    if (last?.wanted === wanted) {
      // A picture of another size is filled again, unless one has gone nearer or round meanwhile.
      if (last.canvas === canvas || camera.position.distanceTo(last.eye) > 1) return;
    }
    const covered = coveredIn(element);
    const { eye, middle } = wholeShell(shell, standing, from, camera.fov, { ...canvas, ...covered });
    fitted.current = { wanted, canvas, eye };
    camera.position.copy(eye);
    controls.current.target.copy(middle);
    controls.current.update();
    invalidate();
  }, [shell, standing, view, showroom, outside, camera, canvas, element, invalidate]);

  return (
    <OrbitControls
      ref={controls}
      enableDamping={false}
      zoomToCursor
      makeDefault
      minDistance={NEAREST}
      maxDistance={FURTHEST}
    />
  );
}
