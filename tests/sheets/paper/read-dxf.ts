import DxfParser, { type IDxf } from "dxf-parser";

/** The package's types describe its ES build, and Node loads the other one, which is the class itself. */
const Parser = DxfParser as unknown as new () => { parseSync(text: string): IDxf | null };

export interface ReadEntity {
  readonly type: string;
  readonly layer: string;
  /** Of a polyline: whether it is closed, and its corners. */
  readonly shape?: boolean;
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
  readonly text?: string;
}

/** A DXF as dxf-parser reads it. */
export function readDxf(text: string) {
  const file = new Parser().parseSync(text);
  if (!file) throw new Error("dxf-parser reads nothing in the file");
  return { header: file.header, entities: file.entities as unknown as readonly ReadEntity[] };
}

/** Area of a closed polyline, mm² (Gauss). */
export function areaOf({ vertices = [] }: ReadEntity): number {
  return Math.abs(
    vertices.reduce((sum, { x, y }, i) => {
      const next = vertices[(i + 1) % vertices.length];
      return sum + (x * next.y - next.x * y) / 2;
    }, 0),
  );
}
