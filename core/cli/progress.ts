import type { Better } from "../cutting/lots/watch.ts";
import { type Cost, compareCosts } from "../packing/cost.ts";
import { harmless } from "../sheets/harmless.ts";
import type { Terminal } from "./terminal.ts";

export interface Progress {
  /** Names the stage that begins now. */
  readonly stage: (name: string) => void;
  /** Names what of a stage is being worked on: heard often, shown where nothing else has been for a while. */
  readonly part: (name: string) => void;
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
/** Whoever waits sees so soon that the work goes on, and at what, ms; it is looked after so often. */
const SIGN = 1500;
const LOOK = 400;

/**
 * Progress on stderr. Watched, it is one line that tells the stage and goes away; in a log, a line for each stage that
 * begins when a second has passed, and where one takes long, what is at work every second or two. A line stays one, whatever a project is called.
 */
export function progressOn(terminal: Terminal, now: () => number = () => performance.now()): Progress {
  const started = now();
  let shown = false;
  let lastLine = started;
  let lastSign = started;
  let atWork = "";
  const after = () => `(${((now() - started) / 1000).toFixed(1)} s)`;
  const show = (line: string) => {
    lastSign = now();
    shown = true;
    if (terminal.watched) terminal.flash(line);
    else terminal.say(`${line}\n`);
  };
  const sign = () => {
    const isDue = now() - lastSign > SIGN && now() - started > UNNOTICED;
    if (isDue && atWork !== "") show(`${atWork} … ${after()}`);
  };
  // While this thread is at work itself it hears of no timer: `part` looks, too.
  const timer = setInterval(sign, LOOK);
  timer.unref();
  const best = new Map<string, Cost>();
  return {
    stage(given) {
      atWork = harmless(given);
      if (terminal.watched) show(`${atWork} …`);
      else if (now() - started > UNNOTICED) show(`${atWork} … ${after()}`);
    },
    part(given) {
      atWork = harmless(given);
      sign();
    },
    better({ material, takes, cost }) {
      const known = best.get(material);
      // Several search for a plan of the same material.
      if (known && compareCosts(cost, known) >= 0) return;
      best.set(material, cost);
      const line = harmless(`${material}: ${takes} so far`);
      if (terminal.watched) show(`${line} …`);
      else if (now() - lastLine > PATIENCE) {
        lastLine = now();
        show(`${line} … ${after()}`);
      }
    },
    tell(words) {
      if (terminal.watched && shown) terminal.flash("");
      terminal.say(`${harmless(words(((now() - started) / 1000).toFixed(1)))}\n`);
    },
    done() {
      clearInterval(timer);
      if (terminal.watched && shown) terminal.flash("");
      shown = false;
    },
  };
}
