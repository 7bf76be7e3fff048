import { useSyncExternalStore } from "react";

const asked = matchMedia("(prefers-reduced-motion: reduce)");
const listen = (changed: () => void) => {
  asked.addEventListener("change", changed);
  return () => asked.removeEventListener("change", changed);
};

/** Whether the person has asked the machine for as little motion as can be. */
export const useStillness = (): boolean => useSyncExternalStore(listen, () => asked.matches);
