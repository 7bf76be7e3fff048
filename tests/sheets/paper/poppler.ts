import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";

/** Poppler draws a PDF without any of our code or of the library that wrote it. Whether it is on this machine; a skip says so. */
export const poppler = (() => {
  try {
    execFileSync("pdftoppm", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

export const withoutPoppler = poppler ? "" : " (skipped: poppler's pdftoppm is not on this machine)";

/** A page as grey pixels, 0 black and 255 white, row by row from the top. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
  readonly dpi: number;
}

/** Draws the pages of a PDF. */
export async function rasterise(pdf: Uint8Array, dpi: number, first = 1, last = 1000): Promise<Raster[]> {
  const folder = mkdtempSync(join(tmpdir(), "ribband-pdf-"));
  try {
    const file = join(folder, "in.pdf");
    writeFileSync(file, pdf);
    const range = ["-f", `${first}`, "-l", `${last}`];
    execFileSync("pdftoppm", ["-gray", "-r", `${dpi}`, ...range, file, join(folder, "page")], {
      stdio: ["ignore", "ignore", "pipe"],
    });
    const names = readdirSync(folder).filter((name) => name.startsWith("page"));
    const pages: Raster[] = [];
    for (const name of names.sort()) pages.push(readPgm(readFileSync(join(folder, name)), dpi));
    return pages;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A raw grey map: `P5`, width, height and 255 in ASCII, then the bytes. */
function readPgm(bytes: Uint8Array, dpi: number): Raster {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(String.fromCharCode(...bytes.subarray(0, 40)));
  if (!head) throw new Error("pdftoppm gave no grey map");
  return { width: Number(head[1]), height: Number(head[2]), grey: bytes.subarray(head[0].length), dpi };
}

/** The same as colours, for readers of codes. */
export async function coloured({ width, height, grey }: Raster): Promise<Uint8ClampedArray> {
  const raw = await sharp(grey, { raw: { width, height, channels: 1 } })
    .toColourspace("srgb")
    .ensureAlpha()
    .raw();
  return new Uint8ClampedArray(await raw.toBuffer());
}

/** Runs of dark pixels along a row or a column through a place, mm from the lower left: where each begins and ends, mm, rising. */
export function darkRuns(raster: Raster, along: "x" | "y", atMm: number): [number, number][] {
  const { width, height, grey, dpi } = raster;
  const mm = 25.4 / dpi;
  const across = Math.round(along === "x" ? height - atMm / mm : atMm / mm);
  const length = along === "x" ? width : height;
  const value = (i: number) =>
    along === "x" ? grey[across * width + i] : grey[(height - 1 - i) * width + across];
  const runs: [number, number][] = [];
  let from = -1;
  for (let i = 0; i <= length; i++) {
    const dark = i < length && value(i) < 128;
    if (dark && from < 0) from = i;
    if (!dark && from >= 0) {
      runs.push([from * mm, i * mm]);
      from = -1;
    }
  }
  return runs;
}
