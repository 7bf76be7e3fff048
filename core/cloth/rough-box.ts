import type { Turning } from "./turning.ts";

/**
 * About how much flat cloth a zone will take, mm along and across the warp, before any is laid: the box of its line drawn in the plane with the turns that
 * it makes in the surface, the warp along its mean direction, and of its two edges square to that.
 */
export function roughBox({ stations, ws, turned }: Pick<Turning, "stations" | "ws" | "turned">): {
  lengthMm: number;
  widthMm: number;
} {
  const m = ws.length;
  const line = ws.indexOf(0);
  const last = stations.length - 1;
  const turn = (i: number) => turned[i * m + line];
  let sum = 0;
  for (let i = 1; i <= last; i++) sum += ((turn(i - 1) + turn(i)) / 2) * (stations[i] - stations[i - 1]);
  const mean = sum / (stations[last] - stations[0]);
  const heading = (i: number) => turn(i) - mean;
  let [x, y] = [0, 0];
  const [xs, ys]: [number[], number[]] = [[], []];
  for (let i = 0; i <= last; i++) {
    if (i > 0) {
      const between = (heading(i - 1) + heading(i)) / 2;
      x += (stations[i] - stations[i - 1]) * Math.cos(between);
      y += (stations[i] - stations[i - 1]) * Math.sin(between);
    }
    for (const w of [ws[0], ws[m - 1]]) {
      xs.push(x - w * Math.sin(heading(i)));
      ys.push(y + w * Math.cos(heading(i)));
    }
  }
  const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  return { lengthMm: spread(xs), widthMm: spread(ys) };
}
