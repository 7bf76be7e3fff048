import type { Paper } from "./page.ts";

/** A part of a drawing that goes onto one page, mm from the drawing's lower left; rows count from below, columns from the left. */
export interface Tile {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** Parts of a size that cover a drawing, each reaching over the next by `overlap` mm. */
export function tilesFor(
  width: number,
  height: number,
  { widthMm, heightMm }: Paper,
  overlap: number,
): Tile[] {
  const count = (whole: number, part: number) =>
    whole <= part ? 1 : Math.ceil((whole - overlap) / (part - overlap) - 1e-9);
  const columns = count(width, widthMm);
  const rows = count(height, heightMm);
  return Array.from({ length: rows * columns }, (_, i) => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    const x = column * (widthMm - overlap);
    const y = row * (heightMm - overlap);
    return { x, y, width: widthMm, height: heightMm, row, column, rows, columns };
  });
}

/** Whether a tile shows anything of an outline that lies `round` mm from the drawing's edges: its line or its inside. */
export function reaches(outline: ArrayLike<number>, round: number, { x, y, width, height }: Tile): boolean {
  const xs = Array.from(outline).filter((_, i) => i % 2 === 0);
  const ys = Array.from(outline).filter((_, i) => i % 2 === 1);
  const left = x - round + Math.min(...xs);
  const low = y - round + Math.min(...ys);
  let inside = false;
  for (let i = 0; i < xs.length; i++) {
    const j = (i + 1) % xs.length;
    if (crosses(xs[i], ys[i], xs[j], ys[j], left, low, left + width, low + height)) return true;
    if (ys[i] > low !== ys[j] > low && left < xs[i] + ((xs[j] - xs[i]) * (low - ys[i])) / (ys[j] - ys[i])) {
      inside = !inside;
    }
  }
  return inside;
}

/** Whether a segment has a part inside a box (Liang and Barsky, ACM Trans. Graphics 3 (1984), 1–22). */
function crosses(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  left: number,
  low: number,
  right: number,
  high: number,
): boolean {
  let from = 0;
  let to = 1;
  for (const [p, q] of [
    [ax - bx, ax - left],
    [bx - ax, right - ax],
    [ay - by, ay - low],
    [by - ay, high - ay],
  ]) {
    if (p === 0 && q < 0) return false;
    if (p < 0) from = Math.max(from, q / p);
    if (p > 0) to = Math.min(to, q / p);
  }
  return from <= to;
}
