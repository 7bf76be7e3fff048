import { useFrame, useThree } from "@react-three/fiber";
import { useEffect, useRef } from "react";
import type { WebGLRenderer } from "three";
import type { ShellFigure } from "./shell-figure.ts";

/** A frame of the full mesh that takes longer than this is too slow to follow a pointer, ms. */
const SLOW_MS = 60;
/** Nothing has been drawn for so long: all is at rest, ms. */
const REST_MS = 500;
/** How often the graphics card is asked whether it is done, ms. */
const LOOK_MS = 5;

/**
 * Draws the shell from its coarser mesh while things move, where frames of the full one prove slow, and once more from the full one
 * when all is at rest. Each frame of the full mesh is timed, so that on a machine that is fast enough nothing ever changes. (Without a
 * graphics card a frame's time goes by triangles; fewer pixels gain nothing.)
 */
export function usePace(shellFigure: ShellFigure): void {
  const gl = useThree((three) => three.gl);
  const scene = useThree((three) => three.scene);
  const invalidate = useThree((three) => three.invalidate);
  const slow = useRef(false);
  const resting = useRef(false);
  const timed = useRef(false);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);

  useFrame(() => {
    clearTimeout(rest.current);
    const atRest = resting.current;
    resting.current = false;
    const draft = slow.current && !atRest;
    shellFigure.draft = draft;
    timed.current = shellFigure.hasFine && !draft;
    if (draft && shellFigure.hasFine)
      rest.current = setTimeout(() => {
        resting.current = true;
        invalidate();
      }, REST_MS);
  });

  useEffect(() => {
    let stop = () => {};
    scene.onAfterRender = () => {
      if (!timed.current) return;
      timed.current = false;
      stop();
      stop = timeFrame(gl, (ms) => {
        slow.current = ms > SLOW_MS;
      });
    };
    return () => {
      stop();
      clearTimeout(rest.current);
      scene.onAfterRender = () => {};
    };
  }, [gl, scene]);
}

/** Tells how long the graphics card takes for what it was just given, ms, unless the function that it gives is called before. */
function timeFrame(gl: WebGLRenderer, tell: (ms: number) => void): () => void {
  const context = gl.getContext() as WebGL2RenderingContext;
  const fence = context.fenceSync(context.SYNC_GPU_COMMANDS_COMPLETE, 0);
  // A context that was lost gives none, and draws none.
  if (!fence) return () => {};
  context.flush();
  const from = performance.now();
  const timer = setInterval(() => {
    if (context.getSyncParameter(fence, context.SYNC_STATUS) !== context.SIGNALED) return;
    leave();
    tell(performance.now() - from);
  }, LOOK_MS);
  const leave = () => {
    clearInterval(timer);
    context.deleteSync(fence);
  };
  return leave;
}
