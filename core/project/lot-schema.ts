/**
 * The lot file: what a cutting room has on its plan and in stock. Plain data, lengths in millimetres, prices in the
 * shop's own currency. Strict like the project file, and checked with the same words.
 */
import { z } from "zod";
import { count, mm, price } from "./figures.ts";
import { id } from "./shell-schema.ts";

/** The version of the lot format that this program writes and reads. */
export const lotVersion = 1;

/** The shortest roll, sheet or bar that a stock can list, mm. */
export const leastStock = { roll: 100, sheet: 50, bar: 50 } as const;

const ofStock = {
  id,
  /** Id of a material of the lot's projects. */
  material: id,
  /** Absent: as many as are wanted. */
  count: count(0, 100_000).optional(),
  price: price(0.01, 1_000_000).optional(),
  /** Left over from an earlier lot: used first, costs nothing unless it has a price. */
  remnant: z.boolean().optional(),
};

export const lot = z.strictObject({
  format: z.literal("ribband-lot"),
  version: z.literal(lotVersion),
  name: z.string().min(1).max(120),
  notes: z.string().max(4000).optional(),
  /** The project's file, seen from the lot's folder, and for how many shells of it. */
  models: z
    .array(z.strictObject({ project: z.string().min(1).max(1000), shells: count(1, 1000) }))
    .min(1)
    .max(100),
  cutting: z.strictObject({
    /** `hand`: straight cuts across the roll, then along; `table`: a cutting table, pieces lie anywhere. */
    way: z.enum(["hand", "table"]),
    /** Kept free between pieces of cloth and of sheet. */
    gap: mm(0, 100).optional(),
    /** Kept free along the edges of rolls and sheets. */
    margin: mm(0, 200).optional(),
    /** The saw's, for strips; absent: the widest of the projects' own. */
    kerf: mm(0, 20).optional(),
    /** Cut off each end of a new bar. */
    endTrim: mm(0, 200).optional(),
    /** The shortest rest of a roll, sheet or bar that is kept; none that is too short for a stock to list. */
    keepFrom: mm(0, 6000).optional(),
    seed: count(0, 1_000_000).optional(),
  }),
  stock: z.strictObject({
    rolls: z
      .array(z.strictObject({ ...ofStock, width: mm(100, 3000), length: mm(leastStock.roll, 1_000_000) }))
      .max(1000),
    sheets: z
      .array(z.strictObject({ ...ofStock, width: mm(50, 3000), length: mm(leastStock.sheet, 6000) }))
      .max(1000),
    bars: z.array(z.strictObject({ ...ofStock, length: mm(leastStock.bar, 12_000) })).max(1000),
  }),
});

export type Lot = z.infer<typeof lot>;
export type LotStock = Lot["stock"];
export type LotCutting = Required<Omit<Lot["cutting"], "kerf">> & Pick<Lot["cutting"], "kerf">;

/** The shop's habits where the lot does not tell its own; common practice without a published source. */
const usual = { gap: 3, margin: 0, endTrim: 5, keepFrom: 400, seed: 1 } as const;

/** The way of cutting with what the lot leaves out. */
export function cuttingOf(cutting: Lot["cutting"]): LotCutting {
  return { ...usual, ...cutting };
}
