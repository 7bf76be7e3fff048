import type { Field } from "../surface/field.ts";
import { BEYOND_DOUBT, closeGaps } from "./close-gaps.ts";
import { type Facets, SEATED, TAKEN } from "./facets.ts";
import { improve, putRound } from "./improve.ts";
import { cellsFor, sampleLattice } from "./lattice.ts";
import type { MeshOptions, SurfaceMesh } from "./mesh.ts";
import { dualNet } from "./nets.ts";
import { quarter } from "./quarter.ts";
import { refine } from "./refine.ts";
import { makeSeat, placeAtSeat, type Seat, sharesAt } from "./seat.ts";
import { shapeAt, shapeOf } from "./shape.ts";
import { type Space, spaceOf } from "./space.ts";
import { trim } from "./trim.ts";
import { copyOf, makeWorklist, notPlain, put, type Worklist } from "./worklist.ts";

/** Usual edge and most gap between chord and surface for each quality, mm. */
const QUALITIES = {
  preview: { edge: 100, chord: 8 },
  full: { edge: 50, chord: 1.5 },
} as const;
/**
 * Cells of the first net, mm. Finer meshes are cut into four from there: on flat stretches, most of a shell, new
 * vertices are then known without asking the field, where a finer net asks several times a vertex.
 */
const LARGEST_CELL = 110;
/** The gap is foreseen from the normals at an edge's ends, which is right within some hundredths: stay below. */
const CHORD_MARGIN = 0.93;
/** A diagonal of the lattice's quadrilaterals is √2 edges long, a crooked one somewhat more. */
const LONGEST = 1.7;
/** A sheet thinner than the cells calls for finer cells, this many times over. */
const MOST_FINER = 5;
/** Rounds of measuring gaps where they may be over the limit, in a full mesh; in the later ones the gap goes before the shape. */
const GAP_ROUNDS = 8;
const SHAPE_ROUNDS = 3;
const MANY = 500;
/** A preview's triangles with an angle under this are mended. */
const POOR = shapeAt(14);
/** Distance from the surface at which a vertex counts as seated, and up to which it was taken for flat by rounding only, mm. */
const ON_SURFACE = 1e-7;
const ROUNDING = 1e-3;
/** How far a vertex wrongly taken for flat may have to move, mm, and rounds of mending what lies round such vertices. */
const SETTLE_REACH = 60;
const SETTLINGS = 3;

/**
 * Meshes the zero set of `field` within its bounds, cut at its edge. Every vertex lies on the surface (|f| < 1e-6 mm),
 * those of the open boundary on the edge cut as well. The net is watertight but for that boundary, with no edge shared
 * by more than two triangles. Never throws for a field that returns numbers; an empty surface gives an empty mesh.
 */
export function meshSurface(field: Field, options: MeshOptions): SurfaceMesh {
  const quality = QUALITIES[options.quality];
  const edge = options.edgeMm ?? quality.edge;
  const limit = options.chordMm ?? quality.chord;
  const chord = limit * CHORD_MARGIN;
  const space = spaceOf(field);
  const seat = makeSeat(space);
  const m = firstNet(space, seat, edge);
  const fineness = { chord, longest: LONGEST * edge };
  refine(m, seat, fineness);
  if (field.edge) {
    trim(space, seat, m);
    refine(m, seat, fineness, trianglesOnCut(m));
  }
  if (options.quality === "full") {
    improve(m, seat, chord);
    holdGaps(m, space, seat, limit);
  } else improve(m, seat, chord, poorOf(m));
  for (let round = 0; round < SETTLINGS; round++) {
    const mended = settle(m, space, seat);
    if (mended.length === 0) break;
    const before = m.triangles;
    refine(m, seat, fineness, copyOf(mended));
    for (let t = before; t < m.triangles; t++) put(mended, t);
    const changed = improve(m, seat, chord, mended);
    if (options.quality === "full") holdGaps(m, space, seat, limit, changed);
  }
  return finish(space, m);
}

/** The dual net with cells fine enough to see every sheet, cut into four until its edges are about as long as asked. */
function firstNet(space: Space, seat: Seat, edge: number): Facets {
  const wanted = Math.min(edge * 2 ** Math.max(0, Math.floor(Math.log2(LARGEST_CELL / edge))), space.side);
  let cells = Math.max(cellsFor(space, wanted), Math.ceil(space.side / space.largestCell - 1e-6));
  for (let finer = 0; ; finer++) {
    const { facets, missed } = dualNet(space, sampleLattice(space, cells), seat);
    const more = cellsFor(space, ((space.side / cells) * 2) / 3);
    if (missed > 0 && finer < MOST_FINER && more > cells) {
      cells = more;
      continue;
    }
    let m = facets;
    for (let step = space.side / cells; step > 1.5 * edge; step /= 2) m = quarter(m, seat, LONGEST * edge);
    return m;
  }
}

/** Measures gaps where they may be over the limit and splits there, as long as that helps. */
function holdGaps(m: Facets, space: Space, seat: Seat, limit: number, among = notPlain(m)): void {
  let doubtful = among;
  let before = Infinity;
  for (let round = 0; round < GAP_ROUNDS; round++) {
    const split = closeGaps(m, space, seat, limit, doubtful);
    // Many that do not grow fewer: the field is torn there.
    if (split.length === 0 || (split.length > MANY && split.length > 0.7 * before)) return;
    before = split.length;
    // Mending the shapes may leave twice what it is told to: as much as the limit, and what was split can be drawn together again.
    const leave = round < SHAPE_ROUNDS ? BEYOND_DOUBT * limit : (BEYOND_DOUBT * limit) / 2;
    doubtful = improve(m, seat, leave, around(m, split));
    for (let n = 0; n < split.length; n++) put(doubtful, split.items[n]);
  }
}

/**
 * Seats the vertices that were taken to lie in a plane face, because all round them did, and do not quite. Returns the
 * triangles at those that were far off: between two points of a wall a fillet may come and go.
 */
function settle(m: Facets, space: Space, seat: Seat): Worklist {
  const { position, onCut } = m;
  const { point } = seat;
  const far = makeWorklist(m.triangles);
  for (let v = 0; v < m.vertices; v++) {
    const at = 3 * v;
    const x = position[at];
    const y = position[at + 1];
    const z = position[at + 2];
    if (m.leaving[v] < 0 || m.standing[v] !== TAKEN) continue;
    const field = space.fieldAt(x, y, z);
    const shares = sharesAt(field, x, y, z);
    const off = Math.abs(field.evaluate(x, y, z));
    if (off < ON_SURFACE) {
      m.standing[v] = SEATED;
      m.owner[v] = shares ? field.owner(shares) : (field.sole ?? -1);
      continue;
    }
    point[0] = x;
    point[1] = y;
    point[2] = z;
    if (!(onCut[v] === 1 ? seat.onCut(SETTLE_REACH) : seat.onSurface(SETTLE_REACH))) continue;
    placeAtSeat(m, v, seat);
    m.standing[v] = SEATED;
    if (off > ROUNDING) putRound(m, v, far);
  }
  return far;
}

/** The triangles worth mending in a preview, which is looked at for a tenth of a second. */
function poorOf(m: Facets): Worklist {
  const list = makeWorklist(m.triangles);
  for (let t = 0; t < m.triangles; t++) {
    const h = 3 * t;
    if (m.corner[h] >= 0 && shapeOf(m, m.corner[h], m.corner[h + 1], m.corner[h + 2]) < POOR) put(list, t);
  }
  return list;
}

/** The listed triangles with their neighbours. */
function around(m: Facets, list: Worklist): Worklist {
  const wider = makeWorklist(m.triangles);
  for (let n = 0; n < list.length; n++)
    for (let h = 3 * list.items[n]; h < 3 * list.items[n] + 3; h++) {
      put(wider, list.items[n]);
      if (m.twin[h] >= 0) put(wider, Math.floor(m.twin[h] / 3));
    }
  return wider;
}

function trianglesOnCut(m: Facets): Worklist {
  const list = makeWorklist(m.triangles);
  for (let h = 0; h < 3 * m.triangles; h++)
    if (m.corner[h] >= 0 && m.onCut[m.corner[h]] === 1) put(list, Math.floor(h / 3));
  return list;
}

/** Numbers the vertices in use from 0 and asks the field who owns those that it has not seated. */
function finish(space: Space, m: Facets): SurfaceMesh {
  const { corner, position, normal } = m;
  const numberOf = new Int32Array(m.vertices).fill(-1);
  let vertices = 0;
  let n = 0;
  const triangles = new Uint32Array(3 * m.triangles);
  for (let h = 0; h < 3 * m.triangles; h++) {
    const v = corner[h];
    if (v < 0) continue;
    if (numberOf[v] < 0) numberOf[v] = vertices++;
    triangles[n++] = numberOf[v];
  }
  const mesh: SurfaceMesh = {
    positions: new Float64Array(3 * vertices),
    normals: new Float32Array(3 * vertices),
    triangles: triangles.slice(0, n),
    owner: new Uint16Array(vertices),
  };
  for (let v = 0; v < m.vertices; v++) {
    const to = numberOf[v];
    if (to < 0) continue;
    const x = position[3 * v];
    const y = position[3 * v + 1];
    const z = position[3 * v + 2];
    mesh.positions[3 * to] = x;
    mesh.positions[3 * to + 1] = y;
    mesh.positions[3 * to + 2] = z;
    for (let i = 0; i < 3; i++) mesh.normals[3 * to + i] = normal[3 * v + i];
    mesh.owner[to] = m.owner[v] >= 0 ? m.owner[v] : ownerAt(space, x, y, z);
  }
  return mesh;
}

function ownerAt(space: Space, x: number, y: number, z: number): number {
  const local = space.fieldAt(x, y, z);
  return local.sole ?? local.owner(local.shares(x, y, z));
}
