/**
 * Building blocks of the shell's field. A node writes its value, its gradient and its strongest curvature at a point
 * into one slot of a common stack, so that evaluating a shell allocates nothing.
 *
 * Slot layout (8 numbers): value, gradient x y z, curvature k, its direction tx ty tz. The Hessian of a node is taken as
 * k·t·tᵀ, which is exact for planes, cylinders and cones, and holds the rolling radius for a blend.
 */
export const SLOT = 8;
/** Deep enough for every feature that the schema allows, nested. */
export const stack = new Float64Array(SLOT * 512);

/** Most faces that one shell can have; the stride of `shareStack`. */
export const MOST_FACES = 256;
export const shareStack = new Float64Array(MOST_FACES * 128);

/** What a reduced node is wanted for: a ball about a point, and how far from the surface values count in it, mm. */
export interface Nearby {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly ball: number;
  readonly band: number;
  /** Marks one reduction of the whole tree. */
  readonly pass: number;
}

/**
 * The point about which the tree is being reduced, in the pass of that name; pass 0 for none. Blends keep what they see of
 * their operands there, so that one evaluation of the whole serves the reductions of all its parts.
 */
export const watched = { x: 0, y: 0, z: 0, pass: 0 };

export interface Node {
  /** Writes the slot at a point; may use the slots above it as scratch. */
  evaluate(x: number, y: number, z: number, slot: number): void;
  /** As `evaluate`, and writes every face's share (summing to 1) into the row `slot` of `shareStack`. */
  shares(x: number, y: number, z: number, slot: number): void;
  /** A cheaper node that has the same values in the ball wherever |value| ≤ band, and the same sign elsewhere in it. */
  within(near: Nearby): Node;
  /** Bounds of the gradient's z component, which bound the angle between two nodes. */
  readonly lowZ: number;
  readonly highZ: number;
  /** True when the gradient is the same everywhere. */
  readonly flat: boolean;
  /** Index of the face that it is, for a single face. */
  readonly face?: number;
  /** How many faces meet in it, for a blend. */
  readonly meeting?: number;
}

/** Gives one face all of the row `slot` of `shareStack`, of which `faceCount` are in use. */
export function clearShares(slot: number, faceCount: number, face: number): void {
  const row = slot * MOST_FACES;
  // A loop is quicker than `fill` for so few.
  for (let f = row; f < row + faceCount; f++) shareStack[f] = 0;
  shareStack[row + face] = 1;
}

/** A plane as a face: value = n·p + offset with unit n. */
export class Plane implements Node {
  readonly flat = true;
  readonly lowZ: number;
  readonly highZ: number;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly offset: number;
  readonly face: number;
  readonly faceCount: number;

  constructor(nx: number, ny: number, nz: number, offset: number, face: number, faceCount: number) {
    this.nx = nx;
    this.ny = ny;
    this.nz = nz;
    this.offset = offset;
    this.face = face;
    this.faceCount = faceCount;
    this.lowZ = nz;
    this.highZ = nz;
  }
  evaluate(x: number, y: number, z: number, slot: number): void {
    const s = slot * SLOT;
    stack[s] = this.nx * x + this.ny * y + this.nz * z + this.offset;
    stack[s + 1] = this.nx;
    stack[s + 2] = this.ny;
    stack[s + 3] = this.nz;
    stack[s + 4] = 0;
  }
  shares(x: number, y: number, z: number, slot: number): void {
    this.evaluate(x, y, z, slot);
    clearShares(slot, this.faceCount, this.face);
  }
  within(): Node {
    return this;
  }
}

/**
 * Remembers the last point of a costly node that several blends share (the wall stands in every fillet), and the last
 * reduction, so that one `within` of the whole shell reduces it once and equal operands stay the same object.
 */
export class Remembered implements Node {
  readonly flat: boolean;
  readonly meeting: number | undefined;
  readonly lowZ: number;
  readonly highZ: number;
  private x = Number.NaN;
  private y = 0;
  private z = 0;
  private readonly node: Node;
  private readonly kept = new Float64Array(SLOT);
  private readonly reductions = new Reductions();

  constructor(node: Node) {
    this.node = node;
    this.flat = node.flat;
    this.meeting = node.meeting;
    this.lowZ = node.lowZ;
    this.highZ = node.highZ;
  }
  evaluate(x: number, y: number, z: number, slot: number): void {
    const s = slot * SLOT;
    const kept = this.kept;
    if (x === this.x && y === this.y && z === this.z) {
      for (let i = 0; i < SLOT; i++) stack[s + i] = kept[i];
      return;
    }
    this.node.evaluate(x, y, z, slot);
    for (let i = 0; i < SLOT; i++) kept[i] = stack[s + i];
    this.x = x;
    this.y = y;
    this.z = z;
  }
  shares(x: number, y: number, z: number, slot: number): void {
    this.node.shares(x, y, z, slot);
  }
  within(near: Nearby): Node {
    return this.reductions.known(near) ?? this.reductions.keep(near, this.node.within(near));
  }
}

/**
 * The reductions of a node in one pass, so that equal requests give the same object. What a pass kept is written over in the
 * next: a shell's space makes thousands of passes over every node.
 */
export class Reductions {
  private pass = -1;
  private count = 0;
  private readonly made: { ball: number; band: number; node: Node }[] = [];

  known({ ball, band, pass }: Nearby): Node | undefined {
    if (this.pass !== pass) {
      this.pass = pass;
      this.count = 0;
    }
    for (let i = 0; i < this.count; i++) {
      const m = this.made[i];
      if (m.ball === ball && m.band === band) return m.node;
    }
    return undefined;
  }

  keep({ ball, band }: Nearby, node: Node): Node {
    const place = this.count++;
    if (place === this.made.length) this.made.push({ ball, band, node });
    else {
      const m = this.made[place];
      m.ball = ball;
      m.band = band;
      m.node = node;
    }
    return node;
  }
}
