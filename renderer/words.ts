import { another } from "./words/another-size.ts";
import { card } from "./words/card.ts";
import { cutting } from "./words/cutting.ts";
import { drawing } from "./words/drawing.ts";
import { file } from "./words/file.ts";
import { floor, zoneKinds } from "./words/floor.ts";
import { borders, history, places, settings, stages, totals } from "./words/frame.ts";
import { scene, views } from "./words/scene.ts";
import { showroom } from "./words/showroom.ts";
import { start } from "./words/start.ts";
import { steps } from "./words/steps.ts";
import { tape } from "./words/tape.ts";

/** Every word on screen, a file for each place. The trade's words, short and plain; buttons are verbs. */
export const words = {
  product: "ribband",
  places,
  placesLabel: "Places of the factory",
  borders,
  start,
  file,
  history,
  totals,
  stages,
  /** Why nothing is worked out, in the sentence of `fault`. */
  lostWorker: "its part that works out shells could not be loaded",
  fault: (why: string) => `A fault of the program: ${why}. Your project is untouched.`,
  broken: {
    what: (why: string) =>
      `A fault of the program: ${why}. The window cannot go on; your work was kept aside.`,
    again: "Load the window again",
  },
  settings,
  views,
  scene,
  card,
  floor,
  zoneKinds,
  cutting,
  showroom,
  drawing,
  figure: {
    mixed: "various",
    yes: "yes",
    no: "no",
    outside: (label: string, told: string, least: string, most: string) =>
      `The ${label} is ${told}; it must be from ${least} to ${most}.`,
  },
  another,
  tape,
  steps,
} as const;
