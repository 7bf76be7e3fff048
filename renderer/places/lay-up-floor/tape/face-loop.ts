import type { FlatFace } from "../../../../core/layup/tape-treads.ts";

/** The lines that bound a face, joined end to end into one closed outline: each next line is the one that begins or ends nearest. */
export function faceLoop({ bounds }: Pick<FlatFace, "bounds">): number[] {
  const left = bounds.map(({ line }) => [...line]).filter((line) => line.length >= 4);
  const loop = left.shift() ?? [];
  while (left.length > 0) {
    const [x, y] = loop.slice(-2);
    let best = { at: 0, off: Infinity, turned: false };
    left.forEach((line, at) => {
      const [start, end] = [line.slice(0, 2), line.slice(-2)];
      for (const [turned, [px, py]] of [
        [false, start],
        [true, end],
      ] as const) {
        const off = Math.hypot(px - x, py - y);
        if (off < best.off) best = { at, off, turned };
      }
    });
    const [next] = left.splice(best.at, 1);
    loop.push(...(best.turned ? reversed(next) : next));
  }
  return loop;
}

function reversed(line: readonly number[]): number[] {
  const back: number[] = [];
  for (let i = line.length - 2; i >= 0; i -= 2) back.push(line[i], line[i + 1]);
  return back;
}
