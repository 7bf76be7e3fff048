/** A triangle mesh of a surface, ready to be drawn or measured. Flat arrays, so that it crosses to another thread whole. */
export interface SurfaceMesh {
  /** x, y, z of each vertex, mm; every vertex lies on the field's zero set. */
  readonly positions: Float64Array;
  /** Unit normal of each vertex: the field's gradient, out of the pool into the ground. */
  readonly normals: Float32Array;
  /** Three vertices a triangle, counter-clockwise seen from the ground: a triangle's normal runs along the gradient. */
  readonly triangles: Uint32Array;
  /** Face that owns each vertex: an index into `field.faces`. */
  readonly owner: Uint16Array;
}

export interface MeshOptions {
  /**
   * `preview` follows a dragged figure: coarse, its gaps only about as small as asked. `full` is what is shown, measured
   * and exported: gaps are measured and kept.
   */
  readonly quality: "preview" | "full";
  /** Usual edge length on flat stretches, mm. */
  readonly edgeMm?: number;
  /** Most gap between the middle of an edge (or of a triangle) and the surface, mm. */
  readonly chordMm?: number;
}
