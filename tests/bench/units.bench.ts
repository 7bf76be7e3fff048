import { printLength, readLength } from "../../core/units/length.ts";
import type { Stage } from "./stage.ts";

const texts = Array.from({ length: 1000 }, (_, i) => printLength(i * 37.3, i % 2 === 0 ? "ft-in" : "m"));

export const stages: Stage[] = [
  { name: "units: read 1,000 lengths", run: () => texts.map((text) => readLength(text)) },
  { name: "units: print 1,000 lengths", run: () => texts.map((_, i) => printLength(i * 37.3, "ft-in")) },
];
