import type { LaidZone } from "../../core/layup/laid.ts";
import type { Reinforcement } from "../document/session.ts";

/** Under which name a buyer meets each kind of zone. */
export const reinforcementOf: Readonly<Record<LaidZone["kind"], Reinforcement>> = {
  band: "bands",
  stroke: "bands",
  rib: "ribs",
  "rib-row": "ribs",
  gussets: "gussets",
  pad: "pads",
  stiffener: "stiffeners",
};
