/**
 * The project file: plain data, lengths in millimetres, angles in degrees (keys ending in `Deg`). The schema is strict:
 * an unknown key is an error, so that a typing mistake never loses a figure in silence. Key order here is the order
 * in which a project is printed.
 */
import { z } from "zod";
import { material, rules, shop, zone } from "./layup-schema.ts";
import { shell } from "./shell-schema.ts";

/** The version of the file format that this program writes. Older ones are migrated, newer ones refused. */
export const currentVersion = 3;

export const project = z.strictObject({
  format: z.literal("ribband"),
  version: z.literal(currentVersion),
  name: z.string().min(1).max(120),
  maker: z.string().max(120).optional(),
  notes: z.string().max(4000).optional(),
  shell,
  materials: z.array(material).min(1).max(60),
  shop,
  rules,
  layup: z.array(zone).max(2000),
});

export type Project = z.infer<typeof project>;
export type { HouseRules, Material, ShopSpec, SurfacePlace, ZoneSpec } from "./layup-schema.ts";
export type {
  FeatureSpec,
  FittingSpec,
  FloorSpec,
  FootprintSpec,
  OutlineSpec,
  RimPlace,
  ShellSpec,
} from "./shell-schema.ts";
