import { useCallback, useRef } from "react";

/** A function that stays the same one and does what the newest does, so that what is given it need not be rendered again. */
export function useSteady<Args extends unknown[]>(act: (...args: Args) => void): (...args: Args) => void {
  const newest = useRef(act);
  newest.current = act;
  return useCallback((...args: Args) => newest.current(...args), []);
}
