import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { join } from "node:path";
import type { CutLot } from "../cutting/lots/cut-lot.ts";
import { type CuttingFilesOptions, cuttingFiles } from "../sheets/cutting-files.ts";
import { type Font, readFont } from "../sheets/paper/font.ts";
import { counted } from "../units/counted.ts";
import type { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";
import { othersIn, writeFolder } from "./write-folder.ts";

/** What is asked of the files that the cutting room takes to the table. */
export type SheetOptions = Pick<CuttingFilesOptions, "paper" | "templates" | "labels">;

/** Drawings, templates, labels and workbooks of a lot, by file name. */
export async function cuttingRoomFiles(
  lot: CutLot,
  options: SheetOptions,
  progress: Progress,
): Promise<ReadonlyMap<string, string | Uint8Array>> {
  const [plain, bold] = await Promise.all([face("DejaVuSansCondensed"), face("DejaVuSansCondensed-Bold")]);
  return cuttingFiles(lot, {
    ...options,
    fonts: { plain, bold },
    onStage: progress.stage,
    onPart: progress.part,
  });
}

/** Writes all files of a kit or a lot, and tells of drawings that an earlier run left beside them. */
export async function writeCuttingRoom(
  folder: string,
  files: ReadonlyMap<string, string | Uint8Array>,
  progress: Progress,
  terminal: Terminal,
): Promise<void> {
  progress.stage("writing files");
  await writeFolder(folder, files);
  progress.done();
  const others = await othersIn(folder, ["markers", "templates"], files);
  if (others.length === 0) return;
  const named = others.slice(0, 3).join(", ");
  terminal.say(
    `${join(folder, "/")} also holds ${counted(others.length, "file")} of an earlier run ` +
      `(${named}${others.length > 3 ? ", …" : ""}): do not cut by them.\n`,
  );
}

/** A face of the installed package: found from the script that was started, since this code may be bundled elsewhere. */
async function face(name: string): Promise<Font> {
  const { resolve } = createRequire(process.argv[1]);
  return readFont(name, await readFile(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));
}
