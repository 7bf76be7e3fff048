import type { SurfaceCurve } from "./curve.ts";
import type { Field } from "./field.ts";
import { unitNormal } from "./normal.ts";
import { projectOnto } from "./project.ts";

/**
 * Arc length of a chord whose end tangents (unit, at a + 3 and b + 3 of samples of nine numbers) turn by θ:
 * c·(θ/2)/sin(θ/2), exact for a circle; the error is of fifth order in the span.
 */
export function arcOfChord(samples: Float64Array, a: number, b: number): number {
  const chord = Math.hypot(
    samples[b] - samples[a],
    samples[b + 1] - samples[a + 1],
    samples[b + 2] - samples[a + 2],
  );
  const half = halfTurn(samples, a, b);
  return half > 1e-5 ? (chord * half) / Math.sin(half) : chord;
}

/** Half the angle between the unit tangents of two samples, rad: |t₂ − t₁| = 2 sin(θ/2). */
export function halfTurn(samples: Float64Array, a: number, b: number): number {
  const d = Math.hypot(
    samples[b + 3] - samples[a + 3],
    samples[b + 4] - samples[a + 4],
    samples[b + 5] - samples[a + 5],
  );
  return Math.asin(Math.min(1, d / 2));
}

/**
 * The curve through samples of nine numbers (point, unit tangent, unit normal), taken in the order of the offsets
 * given. Samples that fall together are taken once.
 */
export function assembleCurve(
  samples: Float64Array,
  order: readonly number[],
  closed: boolean,
): SurfaceCurve {
  const kept: number[] = [];
  for (const i of order) {
    const p = kept.length > 0 ? kept[kept.length - 1] : -1;
    if (
      p >= 0 &&
      Math.hypot(samples[i] - samples[p], samples[i + 1] - samples[p + 1], samples[i + 2] - samples[p + 2]) <
        1e-6
    )
      continue;
    kept.push(i);
  }
  const count = kept.length;
  const points = new Float64Array(3 * count);
  const tangents = new Float64Array(3 * count);
  const normals = new Float64Array(3 * count);
  const stations = new Float64Array(count);
  let sum = 0;
  for (let n = 0; n < count; n++) {
    const i = kept[n];
    if (n > 0) sum += arcOfChord(samples, kept[n - 1], i);
    stations[n] = sum;
    points.set(samples.subarray(i, i + 3), 3 * n);
    tangents.set(samples.subarray(i + 3, i + 6), 3 * n);
    normals.set(samples.subarray(i + 6, i + 9), 3 * n);
  }
  const length = closed && count > 1 ? sum + arcOfChord(samples, kept[count - 1], kept[0]) : sum;
  return { points, tangents, normals, stations, length, closed };
}

/**
 * A curve along a polyline (3n numbers): each point projected onto the surface where that works, tangents from its
 * neighbours, lengths along the chords. The stand-in for a line that cannot be made exact.
 */
export function curveAlong(field: Field, polyline: Float64Array, closed: boolean): SurfaceCurve {
  const points = polyline.slice();
  const count = Math.floor(points.length / 3);
  const tangents = new Float64Array(3 * count);
  const normals = new Float64Array(3 * count);
  const stations = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    if (!projectOnto(field, points, 3 * i, 1e-7)) points.set(polyline.subarray(3 * i, 3 * i + 3), 3 * i);
    unitNormal(field, points[3 * i], points[3 * i + 1], points[3 * i + 2], normals, 3 * i);
  }
  const gap = (i: number, j: number) =>
    Math.hypot(
      points[3 * j] - points[3 * i],
      points[3 * j + 1] - points[3 * i + 1],
      points[3 * j + 2] - points[3 * i + 2],
    );
  for (let i = 0; i < count; i++) {
    if (i > 0) stations[i] = stations[i - 1] + gap(i - 1, i);
    const before = i > 0 ? i - 1 : closed ? count - 1 : 0;
    const after = i + 1 < count ? i + 1 : closed ? 0 : count - 1;
    const size = gap(before, after);
    for (let c = 0; c < 3; c++)
      tangents[3 * i + c] =
        size > 0 ? (points[3 * after + c] - points[3 * before + c]) / size : c === 0 ? 1 : 0;
  }
  const last = count > 0 ? stations[count - 1] : 0;
  return {
    points,
    tangents,
    normals,
    stations,
    length: closed && count > 1 ? last + gap(count - 1, 0) : last,
    closed,
  };
}
