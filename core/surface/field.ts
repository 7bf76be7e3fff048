/**
 * A shell as one scalar field: negative in the air (the pool side), positive in the ground, zero on the gel-coat
 * surface. Millimetres. Lipschitz constant about 1, gradient about unit length near the surface, and f = t is the
 * surface moved outwards by t (exact for planes, cylinders, cones, and rolling-ball blends between them).
 */
export interface Field {
  /** Value at a point (mm); leaves the gradient in `gradient`. Allocates nothing. */
  evaluate(x: number, y: number, z: number): number;
  /** [∂f/∂x, ∂f/∂y, ∂f/∂z] of the last `evaluate` (overwritten by each call). Not exactly unit length. */
  readonly gradient: Float64Array;
  /**
   * How far each named face makes the surface at this point: one number per face of `faces`, each 0…1, summing to 1.
   * A plain stretch gives 1 to its face; in the middle of a blend two faces have ½ each. Continuous near the surface.
   * The returned array is overwritten by the next call.
   */
  shares(x: number, y: number, z: number): Float64Array;
  /** Stable ids of the faces, in the order of `shares`. */
  readonly faces: readonly string[];
  /** Index of the face that owns a point by its shares: wall against the rest first, then floor and feature, then tread and riser. */
  owner(shares: Float64Array): number;
  /**
   * A cheaper field that equals this one at every point of the ball at which |f| ≤ band, by default half the radius;
   * elsewhere in the ball it has the right sign, and |f| > band there too. Hot loops ask for it once per brick of space. It has its own
   * `gradient` buffer or shares this one's: always read the gradient from the field that was evaluated.
   */
  within(x: number, y: number, z: number, radius: number, band?: number): Field;
  /** As `evaluate`, without the gradient: for a `within` about the same point that follows at once, and is cheaper then. */
  scout?(x: number, y: number, z: number): number;
  /** Index of the face that makes the whole surface, in a field reduced to one face. */
  readonly sole?: number;
  /** How many faces may make the surface, in a reduced field that tells. */
  readonly meeting?: number;
  /** True in a field reduced to a plane: its gradient is the same everywhere. */
  readonly flat?: boolean;
  /** True where |f| near the surface is the distance to it: a step of −f along the gradient lands on it. */
  readonly distance?: boolean;
  /** Box that holds the whole surface to be meshed, mm. */
  readonly bounds: Bounds;
  /** Least thickness of ground between two stretches of the surface (the coping's flange), mm: a mesher's cells must be finer. */
  readonly thinnest?: number;
  /** Where the surface ends: the part with edge(p) > 0 is cut away (beyond the outer lip). Null for a closed surface. */
  readonly edge: EdgeCut | null;
}

export interface Bounds {
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
}

/** A scalar whose positive side is outside the shell: value at a point in mm, gradient left in `gradient`. */
export interface EdgeCut {
  evaluate(x: number, y: number, z: number): number;
  readonly gradient: Float64Array;
  /** A cheaper cut that equals this one in the ball of `radius` about a point, mm. */
  within?(x: number, y: number, z: number, radius: number): EdgeCut;
}

/** The field whose zero set is the surface of `field` moved outwards (into the ground) by `t` mm. */
export function offsetField(field: Field, t: number): Field {
  if (t === 0) return field;
  return {
    evaluate: (x, y, z) => field.evaluate(x, y, z) - t,
    scout: (x, y, z) => (field.scout?.(x, y, z) ?? field.evaluate(x, y, z)) - t,
    get gradient() {
      return field.gradient;
    },
    shares: (x, y, z) => field.shares(x, y, z),
    faces: field.faces,
    owner: (shares) => field.owner(shares),
    within: (x, y, z, radius, band = radius / 2) =>
      offsetField(field.within(x, y, z, radius, band + Math.abs(t)), t),
    bounds: {
      min: [field.bounds.min[0] - t, field.bounds.min[1] - t, field.bounds.min[2] - t],
      max: [field.bounds.max[0] + t, field.bounds.max[1] + t, field.bounds.max[2] + t],
    },
    flat: field.flat,
    meeting: field.meeting,
    thinnest: field.thinnest === undefined ? undefined : Math.max(field.thinnest - 2 * t, 10),
    edge: field.edge,
  };
}
