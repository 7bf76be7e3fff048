import type { ComponentType } from "react";
import type { Place } from "../document/session.ts";
import { CuttingRoomCard } from "./cutting-room/card.tsx";
import { DrawingOfficeCard } from "./drawing-office/card.tsx";
import { LayUpFloorCard } from "./lay-up-floor/card.tsx";
import { ShellSummary } from "./shell-summary.tsx";

/**
 * What a place puts into the frame. `Main` stands instead of the scene; `Bar` over it; `Card` is the job card at the right;
 * `Foot` lies along the bottom.
 */
export interface PlaceParts {
  readonly Main: ComponentType | null;
  readonly Bar: ComponentType | null;
  readonly Card: ComponentType;
  readonly Foot: ComponentType | null;
}

export const placeParts: Record<Place, PlaceParts> = {
  "drawing-office": { Main: null, Bar: null, Card: DrawingOfficeCard, Foot: null },
  "lay-up-floor": { Main: null, Bar: null, Card: LayUpFloorCard, Foot: null },
  "cutting-room": { Main: null, Bar: null, Card: CuttingRoomCard, Foot: null },
  showroom: { Main: null, Bar: null, Card: ShellSummary, Foot: null },
};
