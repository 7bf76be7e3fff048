import { useThree } from "@react-three/fiber";
import { useEffect, useRef } from "react";
import { Box3, PerspectiveCamera, Vector3 } from "three";
import type { Desk } from "../desk.ts";
import { session } from "../document/session.ts";
import type { LaidZoneView } from "../worker/results.ts";
import type { Figures } from "./use-figures.ts";

/** Room left round the zone, and how near one goes at the least, mm. */
const ROOM = 1.35;
const NEAREST = 1600;

interface Orbit {
  readonly target: Vector3;
  update(): void;
}

/** Goes near to a zone when it is asked for: from outside, square to where it lies, as far off as it is large. */
export function CloseUp({ desk, figures }: { readonly desk: Desk; readonly figures: Figures }) {
  const { camera, controls, invalidate } = useThree((three) => three);
  const latest = useRef({ camera, controls, invalidate });
  latest.current = { camera, controls, invalidate };
  useEffect(
    () =>
      session.subscribe(({ closeUp }, before) => {
        if (!closeUp || closeUp === before.closeUp) return;
        const zone = desk.results.getState().zones.find(({ id }) => id === closeUp.zone);
        const orbit = latest.current.controls as unknown as Orbit | null;
        const eye = latest.current.camera;
        if (!zone || !orbit || !(eye instanceof PerspectiveCamera)) return;
        const { middle, size, outwards } = placeOf(zone);
        const world = middle.applyMatrix4(figures.stand.matrixWorld);
        const way = eye.position.clone().sub(orbit.target).normalize();
        const square = outwards.transformDirection(figures.stand.matrixWorld);
        // A zone that runs all round has no side of its own: it is seen from where one stands.
        if (square.lengthSq() > 0.1)
          way
            .multiplyScalar(0.7)
            .add(square.setZ(Math.max(square.z, 0.35)))
            .normalize();
        const distance = Math.max(NEAREST, (ROOM * size) / (2 * Math.tan((eye.fov * Math.PI) / 360)));
        orbit.target.copy(world);
        eye.position.copy(world).addScaledVector(way, distance);
        orbit.update();
        latest.current.invalidate();
      }),
    [desk, figures],
  );
  return null;
}

function placeOf({ drawing }: LaidZoneView) {
  const { positions, normals } = drawing;
  const box = new Box3().setFromArray(positions as unknown as number[]);
  const outwards = new Vector3();
  for (let i = 0; i < normals.length; i += 3)
    outwards.add(new Vector3(normals[i], normals[i + 1], normals[i + 2]));
  outwards.multiplyScalar(3 / Math.max(1, normals.length));
  return { middle: box.getCenter(new Vector3()), size: box.getSize(new Vector3()).length(), outwards };
}
