import { createStore } from "zustand/vanilla";
import { session } from "../../../document/session.ts";

/** What the tape shows: the wall, or a level face by its id. Never part of the document. */
export const tapeState = createStore<{ readonly shown: string }>(() => ({ shown: "wall" }));

/** Whether a tool is in hand: the tape is then painted on, as the shell is. */
export const isLaying = (): boolean => session.getState().tool !== null;
