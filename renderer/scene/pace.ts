import { useFrame, useThree } from "@react-three/fiber";
import { type RefObject, useEffect, useRef } from "react";
import type { WebGLRenderer } from "three";
import type { Desk } from "../desk.ts";
import type { ShellFigure } from "./shell-figure.ts";

/** A smooth frame of the full mesh that takes longer than this is too slow to follow a pointer, ms. */
const SLOW_MS = 60;
/** Nothing has been drawn for so long: all is at rest, ms. */
const REST_MS = 500;
/** How often the graphics card is asked whether it is done, ms. */
const LOOK_MS = 5;

/**
 * Whether the frame at hand is to be drawn quickly: while things move, where frames that are drawn as well as can be prove slow. The shell
 * is then drawn from its coarser mesh, and edges may be rough; once all is at rest, and no shape that follows a drag is being worked
 * out, one more frame is drawn as well as can be. Each
 * frame of the full mesh is timed, so that on a machine that is fast enough nothing ever changes. (Without a graphics card a frame's
 * time goes by triangles and samples.)
 */
export function usePace(shellFigure: ShellFigure, desk: Desk): RefObject<boolean> {
  const gl = useThree((three) => three.gl);
  const scene = useThree((three) => three.scene);
  const invalidate = useThree((three) => three.invalidate);
  const slow = useRef(false);
  const quick = useRef(false);
  const resting = useRef(false);
  const timed = useRef(false);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);

  useFrame(() => {
    clearTimeout(rest.current);
    const atRest = resting.current;
    resting.current = false;
    quick.current = slow.current && !atRest;
    shellFigure.draft = quick.current;
    timed.current = shellFigure.hasFine && !quick.current;
    const settle = () => {
      if (followsDrag(desk)) {
        rest.current = setTimeout(settle, REST_MS);
        return;
      }
      resting.current = true;
      invalidate();
    };
    if (quick.current) rest.current = setTimeout(settle, REST_MS);
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
  return quick;
}

/** On a machine that is busy enough the next shape of a drag is longer in coming than all seems to be at rest. */
const followsDrag = ({ project, results }: Desk) =>
  project.state.getState().dragging !== null && results.getState().stage !== null;

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
