import type { ZoneSpec } from "../../core/project/schema.ts";
import type { Recipe } from "../document/history.ts";
import { named } from "./zone-edits.ts";

/** `missing`: only where nothing of the kind lies yet. `anew`: what is laid now goes, unless the rules ask for the very same. */
export const ways = ["missing", "anew"] as const;
export type Way = (typeof ways)[number];

/** What a lay-up by the house rules would change. */
export interface LayUpPlan {
  readonly comes: readonly ZoneSpec[];
  readonly goes: readonly ZoneSpec[];
  readonly stays: readonly ZoneSpec[];
}

/** Compares what is laid with what the house rules ask for. */
export function planLayUp(now: readonly ZoneSpec[], wanted: readonly ZoneSpec[], way: Way): LayUpPlan {
  if (way === "missing") {
    const taken = new Set(now.map(placeOf));
    const comes = wanted.filter((zone) => !taken.has(placeOf(zone)));
    return { comes: named({ layup: [...now] }, comes), goes: [], stays: now };
  }
  const same = new Set(wanted.map(figuresOf));
  const stays = now.filter((zone) => same.has(figuresOf(zone)));
  const kept = new Set(stays.map(figuresOf));
  return {
    stays,
    goes: now.filter((zone) => !same.has(figuresOf(zone))),
    comes: named(
      { layup: stays },
      wanted.filter((zone) => !kept.has(figuresOf(zone))),
    ),
  };
}

export const taking =
  ({ comes, goes }: LayUpPlan): Recipe =>
  (draft) => {
    const gone = new Set(goes.map(({ id }) => id));
    draft.layup = [...draft.layup.filter(({ id }) => !gone.has(id)), ...structuredClone(comes as ZoneSpec[])];
  };

const figuresOf = ({ id: _, ...figures }: ZoneSpec): string => JSON.stringify(figures);

/** What a zone lies on, with the kind of thing that it is: one such zone is enough there. */
function placeOf(zone: ZoneSpec): string {
  switch (zone.kind) {
    case "band":
      return `band ${zone.on}`;
    case "stroke":
      return `free ${zone.id}`;
    case "rib":
      return `ribs ${zone.at.run}`;
    case "rib-row":
      return `ribs ${zone.from.run}`;
    case "gussets":
      return `gussets ${zone.under}`;
    case "pad":
      return `pad ${zone.on}`;
    case "stiffener":
      return `stiffener ${zone.run}`;
  }
}
