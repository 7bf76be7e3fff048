import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * The shared packing instances stay outside the project: in `../shared/data/packing` beside it, or in the folder that
 * RIBBAND_PACKING_DATA names. Null when there is none; `whyNoData` then says so.
 */
export const dataFolder: string | null =
  [process.env.RIBBAND_PACKING_DATA, join(import.meta.dirname, "../../../shared/data/packing")].find(
    (folder) => folder !== undefined && existsSync(join(folder, "best_known.json")),
  ) ?? null;

/** For the name of a test that cannot run. */
export const whyNoData =
  "the packing instances are not beside the project, nor where RIBBAND_PACKING_DATA says";

export function readData(path: string): string {
  if (dataFolder === null) throw new Error(whyNoData);
  return readFileSync(join(dataFolder, path), "utf8");
}

/** The six instances with published best layouts. */
export const irregular = ["shirts", "swim", "dagli", "fu", "jakobs1", "shapes0"];
