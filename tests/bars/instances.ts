import { z } from "zod";
import type { BarDemand } from "../../core/cutting/bars/bar-plan.ts";

/** A one-dimensional instance of the shared format. */
export interface BarInstance {
  readonly name: string;
  readonly capacity: number;
  readonly demands: readonly BarDemand[];
  /** The least number of bars, where the file tells it. */
  readonly optimum: number | undefined;
}

const length = z.number().positive();
const instance = z.object({
  name: z.string().optional(),
  capacity: length,
  items: z.array(z.union([length, z.object({ length, demand: z.number().int().min(0) })])).min(1),
  optimum: z.number().int().optional(),
});
const several = z.object({ instances: z.array(instance).min(1) });

/**
 * Reads a file of the shared format: one instance, or a list of them under `instances`; items are lengths, or lengths
 * with a demand. `name` is for one without a name. Throws an Error that says what is wrong.
 */
export function readBarInstances(text: string, name: string): BarInstance[] {
  const value: unknown = JSON.parse(text);
  const isList = typeof value === "object" && value !== null && "instances" in value;
  const parsed = isList ? several.safeParse(value) : z.tuple([instance]).safeParse([value]);
  if (!parsed.success) throw new Error(z.prettifyError(parsed.error));
  const list = "instances" in parsed.data ? parsed.data.instances : parsed.data;
  return list.map((each, k) => ({
    name: each.name ?? (list.length > 1 ? `${name}-${k}` : name),
    capacity: each.capacity,
    demands: each.items.map((item, i) => {
      const { length: lengthMm, demand: quantity } =
        typeof item === "number" ? { length: item, demand: 1 } : item;
      return { id: `item-${i}`, lengthMm, quantity };
    }),
    optimum: each.optimum,
  }));
}
