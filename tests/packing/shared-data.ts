import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * The shared packing instances stay outside the project: in `../shared/data/packing` beside it, or in the folder that
 * RIBBAND_PACKING_DATA names. Null when there is none; `whyNoData` then says so.
 */
const folder = process.env.RIBBAND_PACKING_DATA ?? join(import.meta.dirname, "../../../shared/data/packing");

export const dataFolder: string | null = existsSync(join(folder, "best_known.json")) ? folder : null;

/** For the name of a test that cannot run. */
export const whyNoData =
  "the packing instances are not beside the project, nor where RIBBAND_PACKING_DATA says";

// A skipped test is not listed by every reporter, so the reason is printed as well.
if (dataFolder === null) process.stdout.write(`Skipped: ${whyNoData}.\n`);

export function readData(path: string): string {
  if (dataFolder === null) throw new Error(whyNoData);
  return readFileSync(join(dataFolder, path), "utf8");
}

/** The six instances with published best layouts. */
export const irregular = ["shirts", "swim", "dagli", "fu", "jakobs1", "shapes0"];
