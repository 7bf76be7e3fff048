import type { Face } from "./shell.ts";

/**
 * Which faces compete along a boundary. A field decides who owns a point in rounds: the wall against all the rest; then
 * the floor, each block (a tread and its riser) and the coping as wholes; last the faces of one block. A boundary
 * between two faces is decided in the first round that tells them apart, by whole groups, and so runs on smoothly
 * where a later round changes one of its faces.
 */
export interface FaceContest {
  /** The round that decides it: 0, 1 or 2. */
  readonly round: number;
  /** Ids of the faces on each side, the first side holding the lower face index. */
  readonly sides: readonly [readonly string[], readonly string[]];
}

export interface FaceContests {
  readonly list: readonly FaceContest[];
  /** Index into `list` for faces a ≠ b is table[a·n + b]; −1 for a = b. */
  readonly table: Int32Array;
}

/** The contests of a shell's faces. */
export function faceContests(faces: readonly Pick<Face, "id" | "kind">[]): FaceContests {
  const count = faces.length;
  // Group of each face in rounds 0, 1 and 2, as the index of the group's first face.
  const firstOfRest = faces.findIndex((f) => f.kind !== "wall");
  const rounds: Int32Array[] = [0, 1, 2].map(() => new Int32Array(count));
  faces.forEach((face, i) => {
    const before = i > 0 ? faces[i - 1].kind : "";
    const joins =
      (face.kind === "riser" && before === "tread") || (face.kind === "lip" && before === "coping");
    rounds[0][i] = face.kind === "wall" ? i : firstOfRest;
    rounds[1][i] = joins ? rounds[1][i - 1] : i;
    rounds[2][i] = i;
  });
  const table = new Int32Array(count * count).fill(-1);
  const list: FaceContest[] = [];
  const known = new Map<string, number>();
  for (let a = 0; a < count; a++) {
    for (let b = a + 1; b < count; b++) {
      const round = rounds.findIndex((g) => g[a] !== g[b]);
      const [p, q] = [rounds[round][a], rounds[round][b]].sort((x, y) => x - y);
      const name = `${round} ${p} ${q}`;
      let key = known.get(name);
      if (key === undefined) {
        key = list.length;
        known.set(name, key);
        const group = (g: number) => faces.filter((_, i) => rounds[round][i] === g).map((f) => f.id);
        list.push({ round, sides: [group(p), group(q)] });
      }
      table[a * count + b] = key;
      table[b * count + a] = key;
    }
  }
  return { list, table };
}
