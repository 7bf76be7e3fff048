import { useFrame, useThree } from "@react-three/fiber";
import { useEffect } from "react";
import { Vector3 } from "three";

/** Once round in a minute and a half, radians a second. */
const SPEED = (2 * Math.PI) / 90;
/** Longest step of one frame, s: a machine that stopped for a while does not jump. */
const LONGEST = 0.1;
const UP = new Vector3(0, 0, 1);

/** Walks the eye slowly round the shell, as long as it is there. */
export function Turntable() {
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => invalidate(), [invalidate]);
  useFrame(({ camera, controls }, seconds) => {
    const target = controls && "target" in controls ? (controls.target as Vector3) : new Vector3();
    camera.position
      .sub(target)
      .applyAxisAngle(UP, SPEED * Math.min(seconds, LONGEST))
      .add(target);
    camera.lookAt(target);
    invalidate();
  });
  return null;
}
