import type { Section } from "../surface/section.ts";

/** Two sections of one plane, the second beginning where the first ends. */
export function joinSections(a: Section, b: Section): Section {
  const turned = a.turning[a.turning.length - 1];
  const add = (p: Float64Array, q: Float64Array, skip: number, more: number) =>
    Float64Array.from([...p, ...q.subarray(skip).map((value) => value + more)]);
  return {
    points: add(a.points, b.points, 3, 0),
    tangents: add(a.tangents, b.tangents, 3, 0),
    normals: add(a.normals, b.normals, 3, 0),
    stations: add(a.stations, b.stations, 1, a.length),
    turning: add(a.turning, b.turning, 1, turned),
    length: a.length + b.length,
    closed: false,
    ended: b.ended,
  };
}
