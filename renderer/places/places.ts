import type { ComponentType } from "react";
import type { Place } from "../document/session.ts";
import { CuttingRoomCard } from "./cutting-room/card.tsx";
import { KitTables } from "./cutting-room/tables.tsx";
import { DrawingOfficeCard } from "./drawing-office/card.tsx";
import { Sheets } from "./drawing-office/sheets/sheets.tsx";
import { LayUpFloorBar } from "./lay-up-floor/bar.tsx";
import { LayUpFloorCard } from "./lay-up-floor/card.tsx";
import { Tape } from "./lay-up-floor/tape/tape.tsx";
import { ShowroomSheet } from "./showroom/sheet.tsx";
import { ShowroomStand } from "./showroom/stand.tsx";

/** What a place puts into the frame: `Bar` over the scene; `Card`, the job card at the right; `Foot` along the bottom. */
export interface PlaceParts {
  readonly Bar: ComponentType | null;
  readonly Card: ComponentType;
  readonly Foot: ComponentType | null;
  /** Height of the foot until somebody drags its border. */
  readonly footSize?: string;
  /** Without the line of totals: for buyers. */
  readonly calm?: boolean;
}

export const placeParts: Record<Place, PlaceParts> = {
  "drawing-office": { Bar: null, Card: DrawingOfficeCard, Foot: Sheets, footSize: "42%" },
  "lay-up-floor": { Bar: LayUpFloorBar, Card: LayUpFloorCard, Foot: Tape },
  "cutting-room": { Bar: null, Card: CuttingRoomCard, Foot: KitTables, footSize: "56%" },
  showroom: { Bar: ShowroomStand, Card: ShowroomSheet, Foot: null, calm: true },
};
