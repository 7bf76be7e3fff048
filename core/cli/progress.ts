import type { Better } from "../cutting/lots/watch.ts";
import { type Cost, compareCosts } from "../packing/cost.ts";
import { harmless } from "../sheets/harmless.ts";
import type { Terminal } from "./terminal.ts";

export interface Progress {
  /** Names the stage that begins now. */
  readonly stage: (name: string) => void;
  /** Shows what the best plan of a material takes by now. */
  readonly better: (better: Better) => void;
  /** Tells something worth reading while the work goes on, a sentence; `seconds` is how long it has gone on. */
  readonly tell: (words: (seconds: string) => string) => void;
  /** Takes a progress line off the screen before results are printed. */
  readonly done: () => void;
}

/** What takes no longer than this needs no progress, ms. */
const UNNOTICED = 1000;
/** In a log, better plans are told so long after one another, ms. */
const PATIENCE = 5000;

/**
 * Progress on stderr. Watched, it is one line that tells the stage and goes away; in a log, a line for each stage that
 * begins when a second has passed. A line stays one, whatever a project is called.
 */
export function progressOn(terminal: Terminal, now: () => number = () => performance.now()): Progress {
  const started = now();
  let shown = false;
  let lastLine = started;
  const best = new Map<string, Cost>();
  return {
    stage(given) {
      const name = harmless(given);
      const elapsed = now() - started;
      if (terminal.watched) terminal.flash(`${name} …`);
      else if (elapsed > UNNOTICED) terminal.say(`${name} … (${(elapsed / 1000).toFixed(1)} s)\n`);
      shown = true;
    },
    better({ material, takes, cost }) {
      const known = best.get(material);
      // Several search for a plan of the same material.
      if (known && compareCosts(cost, known) >= 0) return;
      best.set(material, cost);
      const line = harmless(`${material}: ${takes} so far`);
      if (terminal.watched) terminal.flash(`${line} …`);
      else if (now() - lastLine > PATIENCE) {
        lastLine = now();
        terminal.say(`${line} … (${((lastLine - started) / 1000).toFixed(1)} s)\n`);
      }
      shown = true;
    },
    tell(words) {
      if (terminal.watched && shown) terminal.flash("");
      terminal.say(`${harmless(words(((now() - started) / 1000).toFixed(1)))}\n`);
    },
    done() {
      if (terminal.watched && shown) terminal.flash("");
      shown = false;
    },
  };
}
