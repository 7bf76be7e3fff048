import { rmSync } from "node:fs";

/** What a terminal or a system sends to a program that is to end. */
const STOPS = ["SIGINT", "SIGTERM", "SIGHUP"] as const;

/**
 * Has a folder removed when the program is stopped from outside, until the function that it gives back is called. It is asked for at the stop, so
 * that whoever makes the folder can begin before: one that is there already could be left behind.
 */
export function removedWhenStopped(folder: () => string | undefined): () => void {
  const stop = (signal: NodeJS.Signals) => {
    const made = folder();
    if (made) rmSync(made, { recursive: true, force: true });
    stays();
    // With nobody listening any more, the signal ends the program as it would have.
    process.kill(process.pid, signal);
  };
  const stays = () => {
    for (const signal of STOPS) process.off(signal, stop);
  };
  for (const signal of STOPS) process.on(signal, stop);
  return stays;
}
