import type { Drawing, Layer, Line, Mark, Words } from "./drawing.ts";
import { numberText as n } from "./number-text.ts";

const layers: readonly Layer[] = ["stock", "cut", "mark", "text"];

/**
 * A drawing as SVG 1.1 at full size: width and height in mm, one unit a mm, each layer a group of its name. y runs down as the format wants it:
 * the drawing's upper left corner is 0 0. Same drawing, same text. Throws an Error for panes, which only pages have.
 */
export function printSvg(title: string, { widthMm, heightMm, marks }: Drawing): string {
  const size = `width="${n(widthMm)}mm" height="${n(heightMm)}mm" viewBox="0 0 ${n(widthMm)} ${n(heightMm)}"`;
  const groups = layers.flatMap((layer) => {
    const own = marks.filter((mark) => layerOf(mark) === layer);
    if (own.length === 0) return [];
    const lines = own.map((mark) => `    ${markText(mark, heightMm)}\n`).join("");
    return [`  <g id="${layer}">\n${lines}  </g>\n`];
  });
  return (
    '<?xml version="1.0" encoding="UTF-8"?>\n' +
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" ${size} fill="none" stroke-linejoin="round" stroke-linecap="round">\n` +
    `  <title>${escaped(title)}</title>\n${groups.join("")}</svg>\n`
  );
}

function layerOf(mark: Mark): Layer {
  if (mark.kind === "pane") throw new Error("a full-size drawing has no panes");
  return mark.layer;
}

const markText = (mark: Mark, height: number) =>
  mark.kind === "line" ? lineText(mark, height) : mark.kind === "words" ? wordsText(mark, height) : "";

function lineText({ points, closed, pen, fill }: Line, height: number): string {
  const parts: string[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) parts.push(`${n(points[i])},${n(height - points[i + 1])}`);
  const stroke = pen ? ` stroke="black" stroke-width="${n(pen.widthMm)}"` : "";
  const dash = pen?.dash ? ` stroke-dasharray="${pen.dash.map(n).join(" ")}"` : "";
  const shade = fill ? ` fill="${fill === "ink" ? "black" : "white"}"` : "";
  return `<${closed ? "polygon" : "polyline"} points="${parts.join(" ")}"${stroke}${dash}${shade}/>`;
}

const anchors = { left: "start", middle: "middle", right: "end" } as const;

function wordsText({ x, y, words, size, align, turnDeg, bold }: Words, height: number): string {
  const place = `x="${n(x)}" y="${n(height - y)}"`;
  const turn = turnDeg === 0 ? "" : ` transform="rotate(${n(-turnDeg)} ${n(x)} ${n(height - y)})"`;
  const face = `font-family="'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif" font-size="${n(size)}"${bold ? ' font-weight="bold"' : ""}`;
  return `<text ${place} ${face} text-anchor="${anchors[align]}" fill="black"${turn}>${escaped(words)}</text>`;
}

/** Words as XML holds them; what XML cannot hold at all is shown as the sign for that. */
export function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, "\ufffd")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
