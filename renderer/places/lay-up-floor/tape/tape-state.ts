import { createStore } from "zustand/vanilla";
import { session } from "../../../document/session.ts";

/** What the tape shows: the wall, or a level face by its id. Never part of the document. */
export const tapeState = createStore<{ readonly shown: string }>(() => ({ shown: "wall" }));

/** Whether the rib tool is in hand: a click on the tape lays one, a drag a row. */
export const isLaying = (): boolean => session.getState().tool === "rib";
