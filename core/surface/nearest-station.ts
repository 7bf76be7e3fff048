import { curvePointAt, type SurfaceCurve } from "./curve.ts";

const here = new Float64Array(9);

/** Station (mm) of the point of the curve nearest to (x, y, z): the nearest chord, then Newton on the cubic between its ends. */
export function nearestStation(curve: SurfaceCurve, x: number, y: number, z: number): number {
  const { points: p, stations, closed, length } = curve;
  const count = stations.length;
  let best = Infinity;
  let station = 0;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const j = i + 1 < count ? i + 1 : 0;
    const dx = p[3 * j] - p[3 * i];
    const dy = p[3 * j + 1] - p[3 * i + 1];
    const dz = p[3 * j + 2] - p[3 * i + 2];
    const ex = x - p[3 * i];
    const ey = y - p[3 * i + 1];
    const ez = z - p[3 * i + 2];
    const d2 = dx * dx + dy * dy + dz * dz;
    const u = d2 > 0 ? Math.min(Math.max((ex * dx + ey * dy + ez * dz) / d2, 0), 1) : 0;
    const off = (ex - u * dx) ** 2 + (ey - u * dy) ** 2 + (ez - u * dz) ** 2;
    if (off < best) {
      best = off;
      station = stations[i] + u * ((j === 0 ? length : stations[j]) - stations[i]);
    }
  }
  for (let round = 0; round < 3; round++) {
    curvePointAt(curve, station, here);
    station += (x - here[0]) * here[3] + (y - here[1]) * here[4] + (z - here[2]) * here[5];
    if (!closed) station = Math.min(Math.max(station, 0), length);
  }
  return closed ? station - Math.floor(station / length) * length : station;
}
