/** What a zone is drawn with: the material's own pattern. */
export type Pattern = "weave" | "ticks" | "cells" | "hatch";

/** A zone as triangles on the lay-up surface, ready for the graphics card. Millimetres. */
export interface Drawing {
  readonly pattern: Pattern;
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** Two figures a vertex, mm in the material's own directions: along (warp, length) and across; the pattern hangs on them. */
  readonly inCloth: Float32Array;
  readonly triangles: Uint32Array;
  /** Ink lines: pairs of points, x y z each. */
  readonly edges: Float32Array;
  /** Half widths of each ply, left and right in turn; only cloth has several. */
  readonly plies: readonly (readonly [number, number])[];
}

/** Gathers vertices, triangles and ink lines. */
export class Draughtsman {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly inCloth: number[] = [];
  private readonly triangles: number[] = [];
  private readonly edges: number[] = [];

  vertex(p: readonly number[], n: readonly number[], along: number, across: number): number {
    this.positions.push(p[0], p[1], p[2]);
    this.normals.push(n[0], n[1], n[2]);
    this.inCloth.push(along, across);
    return this.positions.length / 3 - 1;
  }

  triangle(a: number, b: number, c: number): void {
    this.triangles.push(a, b, c);
  }

  quad(a: number, b: number, c: number, d: number): void {
    this.triangle(a, b, c);
    this.triangle(a, c, d);
  }

  ink(p: readonly number[], q: readonly number[]): void {
    this.edges.push(p[0], p[1], p[2], q[0], q[1], q[2]);
  }

  finish(pattern: Pattern): Drawing {
    return {
      pattern,
      positions: Float32Array.from(this.positions),
      normals: Float32Array.from(this.normals),
      inCloth: Float32Array.from(this.inCloth),
      triangles: Uint32Array.from(this.triangles),
      edges: Float32Array.from(this.edges),
      plies: [],
    };
  }
}
