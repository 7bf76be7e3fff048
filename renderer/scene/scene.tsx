import { Canvas } from "@react-three/fiber";
import { useRef } from "react";
import { Vector3 } from "three";
import { useDesk, useResults, useSession } from "../desk.ts";
import { words } from "../words.ts";
import { inShowroom } from "./as-seen.ts";
import { Contents } from "./contents.tsx";
import { Readout } from "./readout.tsx";
import styles from "./scene.module.css";
import { ViewBar } from "./view-bar.tsx";

/** Lens: long, so that edges that are parallel look it. Degrees, upright. */
const LENS = 26;
/** The upright of the world is z. */
const UP = new Vector3(0, 0, 1);

/** The shell in three dimensions, with how it is seen and what is pointed at. Draws a frame only when something changed. */
export function Scene() {
  const desk = useDesk();
  const wrong = useResults((r) => r.refusals.length > 0 && r.shell !== null);
  const empty = useResults((r) => r.shell === null && r.refusals.length === 0);
  const fault = useResults((r) => r.fault);
  const showroom = useSession(inShowroom);
  const readout = useRef<HTMLDivElement>(null);
  const box = useRef<HTMLDivElement>(null);
  return (
    <div className={styles.scene}>
      <Canvas
        className={styles.canvas}
        frameloop="demand"
        dpr={[1, 2]}
        // Frames with smooth edges come from a sheet of their own.
        gl={{ antialias: false, powerPreference: "high-performance" }}
        flat
        camera={{ fov: LENS, near: 100, far: 120_000, up: UP, position: [-9000, -14_000, 9000] }}
        onCreated={({ gl }) => {
          gl.localClippingEnabled = true;
        }}
        aria-label={words.scene.label}
        role="group"
      >
        <Contents desk={desk} readout={readout} box={box} />
      </Canvas>
      {empty && <p className={styles.empty}>{fault === null ? words.scene.empty : words.fault(fault)}</p>}
      {wrong && <p className={styles.lastGood}>{words.scene.lastGood}</p>}
      <div ref={box} className={styles.box} hidden />
      <Readout box={readout} />
      {!showroom && <ViewBar />}
    </div>
  );
}
