import type { FeatureSpec, ShellSpec } from "../../../../core/project/schema.ts";
import type { FigurePath } from "../../../document/figure-path.ts";
import { zoneName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { type Level, levelsOf } from "./drawn-section.ts";
import type { Drawn } from "./drawn-shell.ts";
import type { Handle } from "./handle.ts";
import { uprightHandle } from "./upright-handle.ts";

const told = words.drawing.handles;
/** A tread of which less is seen than this has no handle, mm. */
const LEAST = 40;

/**
 * The depths of treads, ledges, benches and seats, in the middle of what the long section shows of each: of those that it cuts, and
 * of the chosen feature where that is seen beyond.
 */
export function treadHandles(shell: ShellSpec, drawn: Drawn, chosen: string | null): Handle[] {
  const deepest = drawn.floor?.deepest ?? Infinity;
  const levels = levelsOf(drawn).filter(
    ({ block, cut }) => block.depth < deepest && (cut || block.feature === chosen),
  );
  return shell.features.flatMap((feature, i) =>
    depthsOf(feature).flatMap(({ path, depth, name }, tier): Handle[] => {
      const own = levels.filter(({ block }) => block.feature === feature.id && block.depth === depth);
      const middle = middleOf(own, levels);
      if (middle === null) return [];
      return [
        uprightHandle(shell, `${feature.id} depth-${tier}`, name, middle, depth, ["features", i, ...path]),
      ];
    }),
  );
}

function depthsOf(
  feature: FeatureSpec,
): { readonly path: FigurePath; readonly depth: number; readonly name: string }[] {
  const called = zoneName(feature.id);
  if (feature.kind !== "steps")
    return [{ path: ["depth"], depth: feature.depth, name: told.depthOf(called) }];
  return feature.treads.map(({ depth }, k) => ({
    path: ["treads", k, "depth"],
    depth,
    name: told.treadDepth(k + 1, called),
  }));
}

/** The middle of the longest stretch that nothing higher lies over; null where too little is seen. */
function middleOf(own: readonly Level[], all: readonly Level[]): number | null {
  let seen: [number, number][] = own.map(({ from, to }) => [from, to]);
  for (const { block, from, to } of all) {
    if (block.depth >= (own[0]?.block.depth ?? 0)) continue;
    seen = seen.flatMap(([a, b]): [number, number][] => [
      [a, Math.min(b, from)],
      [Math.max(a, to), b],
    ]);
  }
  const [longest] = seen.sort(([a, b], [c, d]) => d - c - (b - a));
  return longest && longest[1] - longest[0] >= LEAST ? (longest[0] + longest[1]) / 2 : null;
}
