import { formatPath } from "../../../../core/project/problem.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { figureSetter, type Handle, onGrain, type Spot } from "./handle.ts";

const DOWN: Spot = { x: 0, y: -1 };

/** A handle of the long section that goes up and down: a depth of the shell, at a place along it. `path`: of its figure in the shell. */
export function uprightHandle(
  shell: ShellSpec,
  id: string,
  name: string,
  x: number,
  depth: number,
  path: readonly (string | number)[],
): Handle {
  const set = figureSetter(shell, path);
  return {
    id,
    name,
    at: { x, y: -depth },
    shape: "edge",
    along: DOWN,
    stride: 1,
    value: depth,
    told: (print) => print(depth),
    field: formatPath(["shell", ...path]),
    to: ({ y }, grain) => set(onGrain(-y, grain)),
  };
}
