import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { box, type Drawing, filled, line, outline, words } from "../../../core/sheets/paper/drawing.ts";
import { printSvg } from "../../../core/sheets/paper/svg.ts";

const drawing: Drawing = {
  widthMm: 200,
  heightMm: 100,
  marks: [
    words(10, 10, `<a> & "b" \u0007`, 5),
    line([0, 0, 50, 0]),
    outline(box(20, 10, 60, 30)),
    filled(box(120, 60, 40, 30), "ink"),
  ],
};

describe("an SVG", () => {
  const text = printSvg("Roll <1>", drawing);

  test("is at full size, a group a layer, and the same at every run", () => {
    expect(text).toContain('width="200mm" height="100mm" viewBox="0 0 200 100"');
    expect([...text.matchAll(/<g id="(\w+)">/g)].map(([, id]) => id)).toEqual(["cut", "mark", "text"]);
    expect(text).toContain("<title>Roll &lt;1&gt;</title>");
    expect(text).toContain("&lt;a&gt; &amp; &quot;b&quot; \ufffd</text>");
    expect(printSvg("Roll <1>", drawing)).toBe(text);
  });

  test("drawn by an independent reader, things lie where they are, y up", async () => {
    const DPI = 72;
    const px = (mm: number) => Math.round((mm * DPI) / 25.4);
    const { data, info } = await sharp(Buffer.from(text), { density: DPI })
      .flatten({ background: "white" })
      .greyscale()
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([px(200), px(100)]);
    const at = (x: number, y: number) =>
      data[(info.height - 1 - px(y)) * info.width * info.channels + px(x) * info.channels];
    expect(at(140, 75)).toBeLessThan(40);
    expect(at(140, 50)).toBeGreaterThan(200);
    expect(at(50, 25)).toBeGreaterThan(200);
  });

  test("refuses a pane, which only pages have", () => {
    const pane = { kind: "pane", x: 0, y: 0, width: 1, height: 1, dx: 0, dy: 0, marks: [] } as const;
    expect(() => printSvg("", { widthMm: 1, heightMm: 1, marks: [pane] })).toThrow("panes");
  });
});
