import { curvePointAt, type SurfaceCurve } from "./curve.ts";

/** Stations nearer than this to a point of the curve are that point, mm. */
const SAME = 1e-6;

/**
 * The same curve with further points in it: `samples` holds nine numbers each (point, unit tangent, unit normal), at the
 * ascending `stations`. A station that a point has already is left as it is.
 */
export function insertSamples(
  curve: SurfaceCurve,
  samples: Float64Array,
  stations: readonly number[],
): SurfaceCurve {
  const had = curve.stations.length;
  const order: { station: number; from: SurfaceCurve | null; at: number }[] = [];
  let n = 0;
  const give = (limit: number) => {
    for (; n < stations.length && stations[n] < limit - SAME; n++) {
      const last = order.length > 0 ? order[order.length - 1].station : -Infinity;
      if (stations[n] > last + SAME) order.push({ station: stations[n], from: null, at: n });
    }
  };
  for (let i = 0; i < had; i++) {
    give(curve.stations[i]);
    while (n < stations.length && stations[n] <= curve.stations[i] + SAME) n++;
    order.push({ station: curve.stations[i], from: curve, at: i });
  }
  if (curve.closed) give(curve.length);
  return gather(
    order,
    (o, into) => {
      if (o.from) copyPoint(o.from, o.at, into);
      else into.set(samples.subarray(9 * o.at, 9 * o.at + 9));
    },
    curve.length,
    curve.closed,
  );
}

/**
 * The stretch of a curve from one station to another, in its direction; that of a closed curve may run past its first
 * point (`from` > `to`). The points in between are the curve's own, and so are the ends where it has points there.
 */
export function cutCurve(curve: SurfaceCurve, from: number, to: number): SurfaceCurve {
  const end = curve.closed && to <= from ? to + curve.length : to;
  const order: { station: number; from: SurfaceCurve | null; at: number }[] = [];
  const count = curve.stations.length;
  const rounds = curve.closed ? 2 : 1;
  for (let n = 0; n < rounds * count; n++) {
    const i = n % count;
    const station = curve.stations[i] + (n >= count ? curve.length : 0);
    if (station < from - SAME || station > end + SAME) continue;
    order.push({ station: Math.max(0, station - from), from: curve, at: i });
  }
  const whole = end - from;
  if (order.length === 0 || order[0].station > SAME) order.unshift({ station: 0, from: null, at: from });
  else order[0].station = 0;
  if (order[order.length - 1].station < whole - SAME) order.push({ station: whole, from: null, at: end });
  const length = order[order.length - 1].station;
  return gather(
    order,
    (o, into) => {
      if (o.from) copyPoint(o.from, o.at, into);
      else curvePointAt(curve, o.at, into);
    },
    length,
    false,
  );
}

function copyPoint(curve: SurfaceCurve, i: number, into: Float64Array): void {
  for (let c = 0; c < 3; c++) {
    into[c] = curve.points[3 * i + c];
    into[3 + c] = curve.tangents[3 * i + c];
    into[6 + c] = curve.normals[3 * i + c];
  }
}

function gather<T extends { station: number }>(
  order: readonly T[],
  write: (o: T, into: Float64Array) => void,
  length: number,
  closed: boolean,
): SurfaceCurve {
  const count = order.length;
  const points = new Float64Array(3 * count);
  const tangents = new Float64Array(3 * count);
  const normals = new Float64Array(3 * count);
  const stations = new Float64Array(count);
  const sample = new Float64Array(9);
  order.forEach((o, i) => {
    write(o, sample);
    points.set(sample.subarray(0, 3), 3 * i);
    tangents.set(sample.subarray(3, 6), 3 * i);
    normals.set(sample.subarray(6, 9), 3 * i);
    stations[i] = o.station;
  });
  return { points, tangents, normals, stations, length, closed };
}
