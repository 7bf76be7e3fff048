import { patchOf } from "./cell-patches.ts";
import { type Facets, makeFacets } from "./facets.ts";
import type { Lattice } from "./lattice.ts";
import { missedSheets } from "./missed-sheets.ts";
import { type NetVertices, placeVertices, seatVertex } from "./net-vertices.ts";
import type { Seat } from "./seat.ts";
import type { Space } from "./space.ts";

/**
 * Dual net of the sampled field: a vertex for every sheet in every cell, a quadrilateral for every lattice edge that the
 * surface crosses, each cut along the diagonal that follows the surface better. What lies well beyond the edge cut is
 * left out. `missed` counts the lattice edges that the surface crosses twice: a sheet thinner than the cells.
 */
export function dualNet(space: Space, lattice: Lattice, seat: Seat): { facets: Facets; missed: number } {
  const net = placeVertices(space, lattice);
  const facets = makeFacets(net.position, net.normal, net.count, quadrilaterals(space, lattice, seat, net));
  facets.owner = net.owner;
  return { facets, missed: missedSheets(space, lattice) };
}

/** The triangles, two for each crossed lattice edge, round the four cells at the edge; seats the vertices in use. */
function quadrilaterals(
  space: Space,
  lattice: Lattice,
  seat: Seat,
  net: NetVertices,
): Int32Array<ArrayBuffer> {
  const { nx, ny, value, step } = lattice;
  const up = nx * ny;
  const { first, shape, beyond, position, normal } = net;
  const triangles = new Int32Array(18 * net.count);
  let used = 0;

  const vertexOf = (cell: number, edge: number): number => {
    const v = first[cell] - 1;
    return v < 0 ? -1 : v + patchOf[shape[v] * 12 + edge];
  };
  const add = (a: number, b: number, c: number): void => {
    triangles[used++] = a;
    triangles[used++] = b;
    triangles[used++] = c;
  };
  const quad = (p: number, q: number, r: number, s: number, turned: boolean): void => {
    if (p < 0 || q < 0 || r < 0 || s < 0) return;
    if (beyond[p] > step && beyond[q] > step && beyond[r] > step && beyond[s] > step) return;
    seatVertex(space, lattice, seat, net, p);
    seatVertex(space, lattice, seat, net, q);
    seatVertex(space, lattice, seat, net, r);
    seatVertex(space, lattice, seat, net, s);
    if (beyond[p] > 0 && beyond[q] > 0 && beyond[r] > 0 && beyond[s] > 0) return;
    const b = turned ? s : q;
    const d = turned ? q : s;
    if (bend(position, normal, p, r) <= bend(position, normal, b, d)) {
      add(p, b, r);
      add(p, r, d);
    } else {
      add(p, b, d);
      add(b, r, d);
    }
  };
  // Each lattice edge is met at its lower end, the lowest corner of one cell.
  for (let v = 0; v < net.count; v++) {
    const at = net.cell[v];
    if (v + 1 !== first[at]) continue;
    const air = value[at] < 0;
    // A surface that runs out of its bounds ends, open, at the end of the lattice.
    if (at % nx === 0 || Math.floor(at / nx) % ny === 0 || at < up) continue;
    if (value[at + 1] < 0 !== air)
      quad(vertexOf(at - nx - up, 3), vertexOf(at - up, 2), vertexOf(at, 0), vertexOf(at - nx, 1), !air);
    if (value[at + nx] < 0 !== air)
      quad(vertexOf(at - 1 - up, 7), vertexOf(at - up, 6), vertexOf(at, 4), vertexOf(at - 1, 5), air);
    if (value[at + up] < 0 !== air)
      quad(vertexOf(at - 1 - nx, 11), vertexOf(at - nx, 10), vertexOf(at, 8), vertexOf(at - 1, 9), !air);
  }
  return triangles.slice(0, used);
}

/** How far an edge leaves the surface: the larger height of one end over the tangent plane at the other, then its length. */
function bend(position: Float64Array, normal: Float64Array, a: number, b: number): number {
  const dx = position[3 * b] - position[3 * a];
  const dy = position[3 * b + 1] - position[3 * a + 1];
  const dz = position[3 * b + 2] - position[3 * a + 2];
  const p = Math.abs(normal[3 * a] * dx + normal[3 * a + 1] * dy + normal[3 * a + 2] * dz);
  const q = Math.abs(normal[3 * b] * dx + normal[3 * b + 1] * dy + normal[3 * b + 2] * dz);
  return Math.max(p, q) + 1e-3 * Math.sqrt(dx * dx + dy * dy + dz * dz);
}
