import type { OutlineSpec } from "../../project/schema.ts";
import { biarcs } from "../biarcs.ts";
import type { Drawn } from "./drawn.ts";
import { repeatedPoints } from "./repeated-points.ts";

type Freeform = Extract<OutlineSpec, { kind: "freeform" }>;

/** A smooth outline of arcs through points. Runs: `span-i` from point i to the next, counted from 1 in the points' order. */
export function drawFreeform({ points }: Freeform): Drawn {
  const repeated = repeatedPoints(points);
  if (repeated.length > 0) return { ok: false, refusals: repeated };
  const { chain, spans } = biarcs(points);
  return { ok: true, chain, names: spans.map((span) => `span-${span + 1}`) };
}
