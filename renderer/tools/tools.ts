import type { ToolName } from "../document/session.ts";
import { bandTool } from "./band.ts";
import { freeBandTool } from "./free-band.ts";
import { gussetsTool } from "./gussets.ts";
import { padTool } from "./pad.ts";
import { ribTool } from "./rib.ts";
import { stiffenerTool } from "./stiffener.ts";
import type { Tool } from "./tool.ts";

const all: Readonly<Record<ToolName, Tool>> = {
  band: bandTool,
  "free-band": freeBandTool,
  rib: ribTool,
  gussets: gussetsTool,
  pad: padTool,
  stiffener: stiffenerTool,
};

export const toolOf = (name: ToolName | null): Tool | null => name && all[name];
