/**
 * The side of a shell over a flat floor as a profile of lines and arcs: cove, drafted wall, rim, coping, lip. Swept square
 * to an outline of lines and arcs it gives areas, volumes and lengths in closed form. Derived here from the figures alone,
 * apart from the kernel. d: mm outwards from the outline, z: mm up from the rim.
 */

export interface SideFigures {
  readonly depth: number;
  readonly draftDeg: number;
  readonly cove: number;
  readonly rim: number;
  readonly flange: number;
  /** Radius of a rolled edge, or 0 for a flat flange. */
  readonly lip: number;
  /** The surface moved outwards by this much: arcs keep their centres, the radii change. */
  readonly offset?: number;
}

export type Piece =
  | {
      readonly kind: "line";
      readonly d0: number;
      readonly z0: number;
      readonly d1: number;
      readonly z1: number;
    }
  | {
      readonly kind: "arc";
      readonly d: number;
      readonly z: number;
      readonly radius: number;
      /** Angles from the d axis towards z, rad, in the order of travel. */
      readonly from: number;
      readonly to: number;
    };

export interface SideProfile {
  /** From the edge of the flat floor outwards to the end of the coping. */
  readonly pieces: readonly Piece[];
  readonly cove: Extract<Piece, { kind: "arc" }>;
  readonly rim: Extract<Piece, { kind: "arc" }>;
  readonly lip: Extract<Piece, { kind: "arc" }> | null;
  /** Where the flat floor ends, mm from the outline (negative), and its depth. */
  readonly floorEdge: number;
  readonly floorDepth: number;
}

/** The cove turns through 90° less the draft: from the floor's normal (−90°) to the wall's (−draft). So does the rim. */
export function sideProfile(figures: SideFigures): SideProfile {
  const { depth, cove, rim, flange, lip, offset = 0 } = figures;
  const draft = (figures.draftDeg * Math.PI) / 180;
  const cos = Math.cos(draft);
  const sin = Math.sin(draft);
  const quarter = Math.PI / 2;
  // A ball's centre lies its radius from the plane cos·d − sin·z = 0 of the wall: inside for the cove, outside for the rim.
  const coveZ = cove - depth;
  const coveArc = {
    kind: "arc",
    d: (sin * coveZ - cove) / cos,
    z: coveZ,
    radius: cove + offset,
    from: -quarter,
    to: -draft,
  } as const;
  const rimArc = {
    kind: "arc",
    d: (rim - sin * rim) / cos,
    z: -rim,
    radius: rim - offset,
    from: Math.PI - draft,
    to: quarter,
  } as const;
  const lipArc =
    lip > 0
      ? ({ kind: "arc", d: flange - lip, z: -lip, radius: lip - offset, from: quarter, to: 0 } as const)
      : null;
  const wallFrom = end(coveArc);
  const wallTo = start(rimArc);
  const topFrom = end(rimArc);
  const topTo = lipArc ? start(lipArc) : { d: flange, z: -offset };
  return {
    pieces: [
      coveArc,
      { kind: "line", d0: wallFrom.d, z0: wallFrom.z, d1: wallTo.d, z1: wallTo.z },
      rimArc,
      { kind: "line", d0: topFrom.d, z0: topFrom.z, d1: topTo.d, z1: topTo.z },
      ...(lipArc ? [lipArc] : []),
    ],
    cove: coveArc,
    rim: rimArc,
    lip: lipArc,
    floorEdge: coveArc.d,
    floorDepth: depth + offset,
  };
}

type ArcPiece = Extract<Piece, { kind: "arc" }>;
const onArc = (a: ArcPiece, angle: number) => ({
  d: a.d + a.radius * Math.cos(angle),
  z: a.z + a.radius * Math.sin(angle),
});
const start = (a: ArcPiece) => onArc(a, a.from);
const end = (a: ArcPiece) => onArc(a, a.to);
/** The middle of a blend: where two equal arcs meet. */
export const middle = (a: ArcPiece) => onArc(a, (a.from + a.to) / 2);
export const arcLength = (a: ArcPiece) => a.radius * Math.abs(a.to - a.from);

/** Length of a piece and its first moment: ∫ds and ∫d ds. */
function lengthMoments(p: Piece): [number, number] {
  if (p.kind === "line") {
    const length = Math.hypot(p.d1 - p.d0, p.z1 - p.z0);
    return [length, (length * (p.d0 + p.d1)) / 2];
  }
  // ∫(d + a cos θ) a dθ from the lower angle to the higher.
  const [low, high] = p.from < p.to ? [p.from, p.to] : [p.to, p.from];
  const length = p.radius * (high - low);
  return [length, length * p.d + p.radius ** 2 * (Math.sin(high) - Math.sin(low))];
}

/** ∫dz, ∫d dz and ∫d² dz of a piece, in the direction of travel. */
function heightMoments(p: Piece): [number, number, number] {
  if (p.kind === "line") {
    const rise = p.z1 - p.z0;
    return [rise, (rise * (p.d0 + p.d1)) / 2, (rise * (p.d0 ** 2 + p.d0 * p.d1 + p.d1 ** 2)) / 3];
  }
  const a = p.radius;
  const at = (t: number): [number, number, number] => {
    const [s, c] = [Math.sin(t), Math.cos(t)];
    // dz = a cos θ dθ; ∫cos² = (θ + sin θ cos θ)/2, ∫cos³ = sin θ − sin³θ/3.
    const two = (t + s * c) / 2;
    const three = s - s ** 3 / 3;
    return [a * s, a * (p.d * s + a * two), a * (p.d ** 2 * s + 2 * p.d * a * two + a * a * three)];
  };
  const [x, y] = [at(p.from), at(p.to)];
  return [y[0] - x[0], y[1] - x[1], y[2] - x[2]];
}

/** One part of an outline run counter-clockwise: a line (`turn` 0) or an arc, its turn positive where it bends inwards. */
export interface OutlinePart {
  readonly length: number;
  /** rad */
  readonly turn: number;
}

/** A closed outline: its parts and the plan area inside, mm². */
export interface ClosedOutline {
  readonly parts: readonly OutlinePart[];
  readonly area: number;
}

/** Length of the curve `d` mm outside the outline, part by part: a line keeps its length, an arc gains d·turn. */
export const lengthAt = ({ parts }: ClosedOutline, d: number): number =>
  parts.reduce((sum, p) => sum + p.length + p.turn * d, 0);

/** Plan area within the curve `d` mm outside the outline: ring by ring, A + ∫lengthAt. */
const areaAt = (outline: ClosedOutline, d: number): number =>
  outline.parts.reduce((sum, p) => sum + p.length * d + (p.turn * d * d) / 2, outline.area);

/** Area of pieces swept along an outline: prisms on its lines, Pappus's R·turn·∫ + turn·∫d ds on its arcs. */
export function sweptArea(outline: ClosedOutline, pieces: readonly Piece[]): number {
  let area = 0;
  for (const piece of pieces) {
    const [length, moment] = lengthMoments(piece);
    for (const part of outline.parts) area += part.length * length + part.turn * moment;
  }
  return area;
}

export interface BasinForms {
  /** Flat floor, cove, wall, rim, coping and lip, mm². */
  readonly area: number;
  /** Water to the rim, mm³: what lies below z = 0 (moved by the offset) inside the rounded rim. */
  readonly volume: number;
  readonly foot: number;
  readonly rim: number;
  readonly lip: number;
}

/** Area, volume and transition lengths of the basin with a flat floor and these sides over an outline. */
export function basinForms(outline: ClosedOutline, figures: SideFigures): BasinForms {
  const side = sideProfile(figures);
  let volume = 0;
  // Up to the top of the rim's arc: the rest of the coping is level.
  for (const piece of side.pieces.slice(0, 3)) {
    const [rise, first, second] = heightMoments(piece);
    volume += outline.area * rise;
    for (const part of outline.parts) volume += part.length * first + (part.turn * second) / 2;
  }
  return {
    area: areaAt(outline, side.floorEdge) + sweptArea(outline, side.pieces),
    volume,
    foot: lengthAt(outline, middle(side.cove).d),
    rim: lengthAt(outline, middle(side.rim).d),
    lip: side.lip ? lengthAt(outline, middle(side.lip).d) : 0,
  };
}

/**
 * The part of the side within `up` mm of the cove's middle along the surface on the wall's side and `down` mm on the
 * floor's: what a band on the foot covers. Both must reach past the cove's tangent lines and end on wall and flat floor.
 */
export function footBand(side: SideProfile, up: number, down: number): Piece[] {
  const { cove } = side;
  const half = arcLength(cove) / 2;
  const [, wall] = side.pieces;
  if (wall.kind !== "line") throw new Error("the wall follows the cove");
  const part = (up - half) / Math.hypot(wall.d1 - wall.d0, wall.z1 - wall.z0);
  if (!(up >= half && down >= half && part <= 1)) throw new Error(`no band of ${up} and ${down} mm here`);
  const z = -side.floorDepth;
  return [
    { kind: "line", d0: side.floorEdge - (down - half), z0: z, d1: side.floorEdge, z1: z },
    cove,
    {
      ...wall,
      d1: wall.d0 + part * (wall.d1 - wall.d0),
      z1: wall.z0 + part * (wall.z1 - wall.z0),
    },
  ];
}
