import { OrbitControls } from "@react-three/drei";
import { useThree } from "@react-three/fiber";
import { type ComponentRef, useEffect, useRef } from "react";
import { PerspectiveCamera, Vector3 } from "three";
import { useStore } from "zustand";
import { type Standing, session, type View } from "../document/session.ts";
import type { ShellView } from "../worker/messages.ts";
import { inShowroom } from "./as-seen.ts";
import { standingMatrix } from "./standing.ts";

/** Where one stands for each view, as a direction from the middle of the shell. */
const directions: Record<View | "outside", readonly [number, number, number]> = {
  corner: [-0.62, -1, 0.62],
  plan: [0, -0.001, 1],
  side: [0, -1, 0.04],
  end: [-1, 0, 0.04],
  below: [-0.5, -1, -0.5],
  // As one would stand beside the pool before the ground is put back round it.
  outside: [-0.62, -1, 0.12],
};
/** Room left round the shell. */
const ROOM = 1.22;
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
    const { eye, middle } = wholeShell(shell, standing, from, camera.fov, canvas.width / canvas.height);
    fitted.current = { wanted, canvas, eye };
    camera.position.copy(eye);
    controls.current.target.copy(middle);
    controls.current.update();
    invalidate();
  }, [shell, standing, view, showroom, outside, camera, canvas, invalidate]);

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

/** The nearest eye in a direction from which the whole shell is in the picture. */
function wholeShell(
  shell: ShellView,
  standing: Standing,
  view: keyof typeof directions,
  fovDeg: number,
  aspect: number,
) {
  const { size, flange } = shell;
  const stand = standingMatrix(size, standing);
  const corners = [-flange, size.length + flange].flatMap((x) =>
    [-1, 1].flatMap((side) =>
      [0, -size.depth].map((z) => new Vector3(x, side * (size.width / 2 + flange), z).applyMatrix4(stand)),
    ),
  );
  const middle = new Vector3(0, 0, size.depth / 2);
  const towards = new Vector3(...directions[view]).normalize();
  const right = new Vector3(0, 0, 1).cross(towards).normalize();
  const up = towards.clone().cross(right);
  const tan = Math.tan((fovDeg * Math.PI) / 360) / ROOM;
  const distance = Math.max(
    ...corners.map((corner) => {
      const off = corner.clone().sub(middle);
      const across = Math.abs(off.dot(right)) / (tan * aspect);
      return off.dot(towards) + Math.max(across, Math.abs(off.dot(up)) / tan);
    }),
  );
  return { middle, eye: middle.clone().addScaledVector(towards, distance) };
}
