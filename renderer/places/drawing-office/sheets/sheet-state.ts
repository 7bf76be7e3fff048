import { createStore } from "zustand/vanilla";
import type { Addable, Offer } from "./placing.ts";

/** What one does on the sheets of the drawing office. Never part of the document, never undone. */
export interface SheetState {
  /** The handle that is pointed at, held or has the keys. */
  readonly handle: string | null;
  /** The feature whose handles are out. */
  readonly feature: string | null;
  /** The fitting that was last put in. */
  readonly fitting: string | null;
  /** Why the last move on a sheet could not be made, in words. */
  readonly fault: string | null;
  /** What one is about to add, and where it would go. */
  readonly adding: { readonly kind: Addable; readonly offer: Offer } | null;
}

export const sheetState = createStore<SheetState>(() => ({
  handle: null,
  feature: null,
  fitting: null,
  fault: null,
  adding: null,
}));
