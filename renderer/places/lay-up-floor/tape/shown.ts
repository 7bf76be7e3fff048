import type { FlatFace } from "../../../../core/layup/tape-treads.ts";
import type { UnrolledWall } from "../../../../core/layup/tape-wall.ts";
import type { Results } from "../../../worker/results.ts";
import { extentOfWall, type Placed, placeOnFace, placeOnWall } from "./things.ts";
import type { Extent } from "./window.ts";

/** What the board shows of the shell: the unrolled wall, or one level face. */
export interface Shown {
  readonly wall: UnrolledWall;
  /** Null: the wall. */
  readonly face: FlatFace | null;
}

/** The board with the zones that lie on it. */
export interface Board extends Shown {
  readonly placed: readonly Placed[];
  readonly extent: Extent;
}

/** Room below a level face for its names, mm. */
const FACE_ROOM = 120;

export function boardOf({ tape, zones }: Results, shown: string): Board | null {
  if (!tape) return null;
  const face = tape.faces.find(({ id }) => id === shown) ?? null;
  if (face) {
    const extent = { x0: 0, y0: -FACE_ROOM, x1: face.alongMm, y1: face.acrossMm + FACE_ROOM };
    return { wall: tape.wall, face, placed: placeOnFace(face, zones), extent };
  }
  const placed = placeOnWall(tape, zones);
  return { wall: tape.wall, face: null, placed, extent: extentOfWall(tape.wall, placed) };
}
