import { Html } from "@react-three/drei";
import { useThree } from "@react-three/fiber";
import { useEffect, useMemo } from "react";
import { Vector3 } from "three";
import { useStore } from "zustand";
import { printLength } from "../../core/units/length.ts";
import { type Standing, session } from "../document/session.ts";
import { words } from "../words.ts";
import type { ShellView } from "../worker/messages.ts";
import { InkLines } from "./ink/ink-line.ts";
import { usePalette } from "./palette.ts";
import styles from "./scene.module.css";
import { standingMatrix } from "./standing.ts";

/** How far outside the coping the dimension lines run, mm. */
const OFF = 420;
/** Length of the ticks at their ends, mm. */
const TICK = 150;

interface Dimension {
  readonly name: string;
  readonly from: Vector3;
  readonly to: Vector3;
  /** Direction of the ticks at both ends. */
  readonly tick: Vector3;
  readonly lengthMm: number;
}

/** Length, width and depth drawn beside the shell, as on a drawing: a line with ticks, and the figure on it. */
export function Dimensions({ shell, standing }: { readonly shell: ShellView; readonly standing: Standing }) {
  const lengths = useStore(session, (s) => s.lengths);
  const palette = usePalette();
  const invalidate = useThree((three) => three.invalidate);
  const ink = useMemo(() => new InkLines(1.2, 0), []);
  const dimensions = useMemo(() => dimensionsOf(shell, standing), [shell, standing]);
  useEffect(() => () => ink.dispose(), [ink]);
  useEffect(() => {
    ink.draw(Float32Array.from(dimensions.flatMap(strokes)));
    ink.material.ink = palette.sea;
    invalidate();
  }, [ink, dimensions, palette, invalidate]);
  return (
    <>
      <primitive object={ink} />
      {dimensions.map(({ name, from, to, lengthMm }) => (
        <Html key={name} center position={from.clone().lerp(to, 0.5)} zIndexRange={[2, 0]}>
          <span className={styles.figure} data-figures="" data-dimension={name}>
            {printLength(lengthMm, lengths)}
            {name === "depth" && <small> {words.scene.depth}</small>}
          </span>
        </Html>
      ))}
    </>
  );
}

function dimensionsOf({ size, flange }: ShellView, standing: Standing): Dimension[] {
  const stand = standingMatrix(size, standing);
  const at = (x: number, y: number, z: number) => new Vector3(x, y, z).applyMatrix4(stand);
  const { length, width, depth } = size;
  // On the side that one looks at from the corner, whichever way up the shell stands.
  const near = standing === "pool-up" ? -1 : 1;
  const side = near * (width / 2 + flange + OFF);
  const end = -(flange + OFF);
  const far = length + flange + OFF / 2;
  const edge = near * (width / 2);
  return [
    {
      name: "length",
      from: at(0, side, 0),
      to: at(length, side, 0),
      tick: new Vector3(0, TICK, 0),
      lengthMm: length,
    },
    {
      name: "width",
      from: at(end, -width / 2, 0),
      to: at(end, width / 2, 0),
      tick: new Vector3(TICK, 0, 0),
      lengthMm: width,
    },
    {
      name: "depth",
      from: at(far, edge, 0),
      to: at(far, edge, -depth),
      tick: new Vector3(TICK, 0, 0),
      lengthMm: depth,
    },
  ];
}

function strokes({ from, to, tick }: Dimension): number[] {
  const half = tick.clone().multiplyScalar(0.5);
  return [from, to, ...[from, to].flatMap((end) => [end.clone().sub(half), end.clone().add(half)])].flatMap(
    (p) => p.toArray(),
  );
}
