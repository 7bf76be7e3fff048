import { useThree } from "@react-three/fiber";
import { useEffect, useRef } from "react";
import { PerspectiveCamera, type Vector3 } from "three";
import type { Desk } from "../desk.ts";
import { session } from "../document/session.ts";
import type { Figures } from "./use-figures.ts";
import { placeOf } from "./zone-place.ts";

/** Room left round the zone, and how near one goes at the least, mm. */
const ROOM = 1.35;
const NEAREST = 1600;
/** How much of a zone faces one way for it to have a side, from 0 to 1. */
const SIDED = 0.1;

interface Orbit {
  readonly target: Vector3;
  update(): void;
}

/** Goes near to a zone, or a place in it, when it is asked for: from outside, square to where it lies, as far off as it is large. */
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
        const { middle, size, outwards } = placeOf(zone.drawing, closeUp.at);
        const sided = outwards.length() > SIDED;
        const world = middle.applyMatrix4(figures.stand.matrixWorld);
        const way = eye.position.clone().sub(orbit.target).normalize();
        const square = outwards.transformDirection(figures.stand.matrixWorld);
        // A zone that runs all round has no side of its own: it is seen from where one stands.
        if (sided)
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
