import { fc, test } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { reaches, tilesFor } from "../../../core/sheets/paper/tiles.ts";

const size = fc.integer({ min: 50, max: 6000 });

describe("tiles", () => {
  test.prop([size, size])("cover a drawing, each reaching over the next by the overlap", (width, height) => {
    const tiles = tilesFor(width, height, { widthMm: 186, heightMm: 240 }, 10);
    const [first] = tiles;
    expect(tiles.length).toBe(first.rows * first.columns);
    for (const { x, y, row, column } of tiles) {
      expect(x).toBe(column * 176);
      expect(y).toBe(row * 230);
    }
    const last = tiles[tiles.length - 1];
    expect(last.x + last.width).toBeGreaterThanOrEqual(width);
    expect(last.y + last.height).toBeGreaterThanOrEqual(height);
    // None too many.
    if (last.columns > 1) expect(last.x + 10).toBeLessThan(width);
    if (last.rows > 1) expect(last.y + 10).toBeLessThan(height);
  });

  test("one that shows the line or the inside of an outline is wanted, one beside it is not", () => {
    const ell = [0, 0, 1000, 0, 1000, 200, 200, 200, 200, 1000, 0, 1000];
    const tile = (x: number, y: number) => ({
      x,
      y,
      width: 50,
      height: 50,
      row: 0,
      column: 0,
      rows: 1,
      columns: 1,
    });
    expect(reaches(ell, 0, tile(75, 75))).toBe(true);
    expect(reaches(ell, 0, tile(180, 500))).toBe(true);
    expect(reaches(ell, 0, tile(500, 500))).toBe(false);
    expect(reaches(ell, 0, tile(-60, 0))).toBe(false);
    expect(reaches(ell, 10, tile(-45, 0))).toBe(false);
    expect(reaches(ell, 10, tile(-35, 0))).toBe(true);
  });
});
