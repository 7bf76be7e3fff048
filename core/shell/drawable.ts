import { buildOutline } from "../plan/build-outline.ts";
import { cornerFigure } from "../plan/outlines/corner-figure.ts";
import type { OutlineSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";

/**
 * Whether an outline can be drawn with another radius, mm, at a run. True as well where the radius is that of no single figure, so
 * that it cannot be tried.
 */
export function isDrawable(spec: OutlineSpec, run: string, radius: number): boolean {
  const { path, value } = cornerFigure(spec, run);
  const [, key, index] = /\.(\w+)(?:\[(\d+)\])?$/.exec(path) ?? [];
  if (typeof value !== "number" || !/[rR]adius$/.test(key)) return true;
  if (radius > limits.cornerRadius[1]) return false;
  const now = spec[key as keyof OutlineSpec] as unknown;
  const made = Array.isArray(now) ? now.map((each, i) => (i === Number(index) ? radius : each)) : radius;
  return buildOutline({ ...spec, [key]: made }).ok;
}
