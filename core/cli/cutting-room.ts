import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { CutLot } from "../cutting/lots/cut-lot.ts";
import { type CuttingFilesOptions, cuttingFiles } from "../sheets/cutting-files.ts";
import { type Font, readFont } from "../sheets/paper/font.ts";
import type { Progress } from "./progress.ts";

/** What is asked of the files that the cutting room takes to the table. */
export type SheetOptions = Pick<CuttingFilesOptions, "paper" | "templates" | "labels">;

/** Steps of improvement that each marker gets where no time is given: the same input then gives the same files. */
const MARKER_STEPS = 200;

/** How long plans are improved: so many steps, or so many seconds for each material. */
export function courseOf(seconds: number | undefined, progress: Progress) {
  let began = performance.now();
  return {
    steps: seconds === undefined ? MARKER_STEPS : Number.POSITIVE_INFINITY,
    watch: {
      onStage: (stage: string) => {
        progress.stage(stage);
        began = performance.now();
      },
      stop: () => seconds !== undefined && performance.now() - began > 1000 * seconds,
    },
  };
}

/** Drawings, templates, labels and workbooks of a lot, by file name. */
export async function cuttingRoomFiles(
  lot: CutLot,
  options: SheetOptions,
  progress: Progress,
): Promise<ReadonlyMap<string, string | Uint8Array>> {
  const [plain, bold] = await Promise.all([face("DejaVuSansCondensed"), face("DejaVuSansCondensed-Bold")]);
  return cuttingFiles(lot, { ...options, fonts: { plain, bold }, onStage: progress.stage });
}

/** A face of the installed package: found from the script that was started, since this code may be bundled elsewhere. */
async function face(name: string): Promise<Font> {
  const { resolve } = createRequire(process.argv[1]);
  return readFont(name, await readFile(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));
}
