import { EDGE_END, EDGE_START, NONE, patchCount, patchOf, troubledFace } from "./cell-patches.ts";
import type { Lattice } from "./lattice.ts";
import type { Seat } from "./seat.ts";
import type { Space } from "./space.ts";

/**
 * The vertices of the dual net: one for each sheet of the surface in each cell that it crosses. They are placed at the
 * middle of the cell's edge crossings, and seated on the surface when a quadrilateral asks for them.
 */
export interface NetVertices {
  count: number;
  position: Float64Array;
  normal: Float64Array;
  seated: Uint8Array;
  /** Face that owns each seated vertex, −1 for others. */
  owner: Int16Array;
  /** How far each vertex lies beyond the edge cut, mm; before it is seated, within a cell. −1 where nothing is cut. */
  beyond: Float32Array;
  /** Reading · 256 + configuration of the vertex's cell, the key into the patch tables. */
  shape: Uint16Array;
  /** Cell of each vertex, known by its lowest corner. */
  cell: Int32Array;
  /** First vertex + 1 of each cell; 0 for none. */
  readonly first: Int32Array;
}

/** Half the diagonal of a cell, and a little for an edge cut that is not quite a distance. */
const BEYOND = 0.92;

/** Places the vertices of the sampled field's net. */
export function placeVertices(space: Space, lattice: Lattice): NetVertices {
  const { nx, ny, value, cells, step } = lattice;
  const up = nx * ny;
  const corner = [0, 1, nx, nx + 1, up, up + 1, up + nx, up + nx + 1];
  const stepTo = [-1, 1, -nx, nx, -up, up];
  const { origin, count } = space;
  const [bx, by] = count;
  const room = 4096;
  const net: NetVertices = {
    count: 0,
    position: new Float64Array(3 * room),
    normal: new Float64Array(3 * room),
    seated: new Uint8Array(room),
    owner: new Int16Array(room),
    beyond: new Float32Array(room),
    shape: new Uint16Array(room),
    cell: new Int32Array(room),
    first: new Int32Array(value.length),
  };
  const sum = new Float64Array(16);

  const configurationAt = (at: number): number => {
    let config = 0;
    for (let c = 0; c < 8; c++) if (value[at + corner[c]] < 0) config |= 1 << c;
    return config;
  };

  for (const brick of space.surfaceBricks) {
    const i0 = (brick % bx) * cells;
    const j0 = (Math.floor(brick / bx) % by) * cells;
    const k0 = Math.floor(brick / (bx * by)) * cells;
    const middle = (c: number, i: number) => origin[c] + (i + cells / 2) * step;
    const cut = space.cutAt(middle(0, i0), middle(1, j0), middle(2, k0));
    for (let k = k0; k < k0 + cells; k++)
      for (let j = j0; j < j0 + cells; j++)
        for (let i = i0, at = i0 + nx * (j + ny * k); i < i0 + cells; i++, at++) {
          const config = configurationAt(at);
          if (config === 0 || config === 255) continue;
          const x = origin[0] + i * step;
          const y = origin[1] + j * step;
          const z = origin[2] + k * step;
          const half = step / 2;
          const far = cut !== null && cut.evaluate(x + half, y + half, z + half) > BEYOND * step;
          const trouble = troubledFace[config];
          const twisted =
            trouble !== NONE && troubledFace[configurationAt(at + stepTo[trouble])] === (trouble ^ 1);
          const shape = twisted ? 256 + config : config;

          sum.fill(0);
          for (let e = 0; e < 12; e++) {
            const patch = patchOf[shape * 12 + e];
            if (patch === NONE) continue;
            const a = EDGE_START[e];
            const b = EDGE_END[e];
            let t = 0.5;
            // Well beyond the cut the place does not matter much.
            if (!far) {
              const va = value[at + corner[a]];
              const vb = value[at + corner[b]];
              t = Math.min(Math.max(va / (va - vb), 0.002), 0.998);
            }
            sum[4 * patch] += (a & 1) + (e < 4 ? t : 0);
            sum[4 * patch + 1] += ((a >> 1) & 1) + (e >= 4 && e < 8 ? t : 0);
            sum[4 * patch + 2] += (a >> 2) + (e >= 8 ? t : 0);
            sum[4 * patch + 3]++;
          }
          const patches = patchCount[shape];
          makeRoom(net, patches);
          net.first[at] = net.count + 1;
          for (let patch = 0; patch < patches; patch++) {
            const n = sum[4 * patch + 3];
            const v = net.count++;
            const px = x + (sum[4 * patch] / n) * step;
            const py = y + (sum[4 * patch + 1] / n) * step;
            const pz = z + (sum[4 * patch + 2] / n) * step;
            net.position[3 * v] = px;
            net.position[3 * v + 1] = py;
            net.position[3 * v + 2] = pz;
            net.beyond[v] = cut ? cut.evaluate(px, py, pz) : -1;
            net.shape[v] = shape;
            net.cell[v] = at;
          }
        }
  }
  return net;
}

/** Seats a vertex on the surface, once. */
export function seatVertex(space: Space, lattice: Lattice, seat: Seat, net: NetVertices, v: number): void {
  if (net.seated[v] === 1) return;
  net.seated[v] = 1;
  const { point, normal } = seat;
  for (let c = 0; c < 3; c++) point[c] = net.position[3 * v + c];
  const settled = seat.onSurface(lattice.step);
  net.owner[v] = settled ? seat.owner : -1;
  if (!settled) seatOnLatticeEdge(space, lattice, seat, net, v);
  for (let c = 0; c < 3; c++) {
    net.position[3 * v + c] = point[c];
    net.normal[3 * v + c] = normal[c];
  }
  const cut = space.cutAt(point[0], point[1], point[2]);
  if (cut) net.beyond[v] = cut.evaluate(point[0], point[1], point[2]);
}

/** Where the middle of the crossings would not settle: halves one of the lattice edges that the sheet crosses instead. */
function seatOnLatticeEdge(space: Space, lattice: Lattice, seat: Seat, net: NetVertices, v: number): void {
  const { point, normal } = seat;
  const { nx, ny, step } = lattice;
  const cell = net.cell[v];
  const patch = v + 1 - net.first[cell];
  let e = 0;
  while (patchOf[net.shape[v] * 12 + e] !== patch) e++;
  const a = EDGE_START[e];
  const axis = e >> 2;
  point[0] = space.origin[0] + ((cell % nx) + (a & 1)) * step;
  point[1] = space.origin[1] + ((Math.floor(cell / nx) % ny) + ((a >> 1) & 1)) * step;
  point[2] = space.origin[2] + (Math.floor(cell / (nx * ny)) + (a >> 2)) * step;
  const valueHere = () => space.fieldAt(point[0], point[1], point[2]).evaluate(point[0], point[1], point[2]);
  const start = point[axis];
  const airFirst = valueHere() < 0;
  let low = 0;
  let high = 1;
  for (let round = 0; round < 50; round++) {
    const t = (low + high) / 2;
    point[axis] = start + t * step;
    if (valueHere() < 0 === airFirst) low = t;
    else high = t;
  }
  normal.fill(0);
  normal[axis] = airFirst ? 1 : -1;
}

function makeRoom(net: NetVertices, more: number): void {
  const room = net.shape.length;
  if (net.count + more <= room) return;
  net.position = twice(net.position);
  net.normal = twice(net.normal);
  net.seated = twice(net.seated);
  net.owner = twice(net.owner);
  net.beyond = twice(net.beyond);
  net.shape = twice(net.shape);
  net.cell = twice(net.cell);
}

function twice<A extends Float64Array | Float32Array | Int32Array | Int16Array | Uint16Array | Uint8Array>(
  array: A,
): A {
  const larger = new (array.constructor as new (n: number) => A)(2 * array.length);
  larger.set(array);
  return larger;
}
