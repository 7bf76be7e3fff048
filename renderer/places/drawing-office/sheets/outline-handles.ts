import { ellCorners } from "../../../../core/plan/outlines/ell.ts";
import { formatPath } from "../../../../core/project/problem.ts";
import type { OutlineSpec, ShellSpec } from "../../../../core/project/schema.ts";
import { type FigurePath, setting } from "../../../document/figure-path.ts";
import { words } from "../../../words.ts";
import { arcCentre, type Corner, cornerAt, radiusAt } from "./corner.ts";
import { dot, figureSetter, type Handle, less, onGrain, type Spot, together, unit } from "./handle.ts";

type Of<K extends OutlineSpec["kind"]> = Extract<OutlineSpec, { kind: K }>;
type Boxed = Extract<OutlineSpec, { length: number }>;

/** Handles of length and width stand beside the coping, pixels off the rim. */
const ASIDE = 22;

const told = words.drawing.handles;
const fieldOf = (path: FigurePath) => formatPath(["shell", ...path]);

/**
 * The handles of an outline, on a sheet that shows it as its figures draw it (points are not moved to the shell's plan).
 * A kind without free points has handles for its length, width, radii and cut.
 */
export function outlineHandles(shell: ShellSpec): Handle[] {
  const { outline } = shell;
  switch (outline.kind) {
    case "rectangle":
    case "stadium":
    case "round-ended":
      return [...boxHandles(shell, outline, 0, outline.length / 2), ...rectangleRadii(shell, outline)];
    case "ell":
      return ellHandles(shell, outline);
    case "polygon":
      return [...pointHandles(outline.points), ...polygonRadii(shell, outline)];
    case "freeform":
      return pointHandles(outline.points);
    case "path":
      return pathHandles(outline);
  }
}

/** Length at the deep end, width at either side. `deepY`, `sideX`: where on those sides the handles stand. */
function boxHandles(shell: ShellSpec, { length, width }: Boxed, deepY: number, sideX: number): Handle[] {
  const lengthSet = figureSetter(shell, ["outline", "length"]);
  const widthSet = figureSetter(shell, ["outline", "width"]);
  const side = (id: "left" | "right", way: 1 | -1): Handle => ({
    id: `width-${id}`,
    name: told.width(id),
    at: { x: sideX, y: (way * width) / 2 },
    shape: "edge",
    along: { x: 0, y: way },
    aside: ASIDE,
    stride: 0.5,
    value: width,
    told: (print) => print(width),
    field: "shell.outline.width",
    to: ({ y }, grain) => widthSet(onGrain(2 * way * y, grain)),
  });
  return [
    {
      id: "length",
      name: told.length,
      at: { x: length, y: deepY },
      shape: "edge",
      along: { x: 1, y: 0 },
      aside: ASIDE,
      stride: 1,
      value: length,
      told: (print) => print(length),
      field: "shell.outline.length",
      to: ({ x }, grain) => lengthSet(onGrain(x, grain)),
    },
    side("right", -1),
    side("left", 1),
  ];
}

const CORNERS = ["shallow-right", "deep-right", "deep-left", "shallow-left"] as const;

function rectangleRadii(shell: ShellSpec, outline: Of<"rectangle" | "stadium" | "round-ended">): Handle[] {
  if (outline.kind === "stadium") return [];
  const { length, width, cornerRadius } = outline;
  const half = width / 2;
  const box: readonly Spot[] = [
    { x: 0, y: -half },
    { x: length, y: -half },
    { x: length, y: half },
    { x: 0, y: half },
  ];
  return CORNERS.flatMap((name, i) => {
    if (outline.kind === "round-ended" && name.startsWith(outline.roundEnd)) return [];
    const own = Array.isArray(cornerRadius);
    const path = ["outline", "cornerRadius", ...(own ? [i] : [])];
    const corner = cornerAt(box[i], box[(i + 3) % 4], box[(i + 1) % 4]);
    const radius = own ? cornerRadius[i] : (cornerRadius as number);
    return radiusHandle(shell, `radius-${i}`, told.radius(name.replace("-", " ")), corner, radius, path);
  });
}

function radiusHandle(
  shell: ShellSpec,
  id: string,
  name: string,
  corner: Corner | null,
  radius: number,
  path: FigurePath,
): Handle[] {
  if (!corner) return [];
  const set = figureSetter(shell, path);
  return [
    {
      id,
      name,
      at: arcCentre(corner, radius),
      shape: "centre",
      along: corner.inward,
      stride: 1 / corner.sine,
      value: radius,
      told: (print) => `R ${print(radius)}`,
      field: fieldOf(path),
      to: (spot, grain) => set(onGrain(radiusAt(corner, spot), grain)),
    },
  ];
}

function ellHandles(shell: ShellSpec, outline: Of<"ell">): Handle[] {
  const { length, width, cutLength, cutWidth, cutAt, cornerRadius, reflexRadius } = outline;
  const deep = cutAt.startsWith("deep");
  const left = cutAt.endsWith("left") ? 1 : -1;
  const corners = ellCorners(outline);
  const reflex = CORNERS.indexOf(cutAt) + 1;
  const box = { x: deep ? length : 0, y: (left * width) / 2 };
  const at = { x: box.x + (deep ? -cutLength : cutLength), y: box.y - left * cutWidth };
  const cutAlong = figureSetter(shell, ["outline", "cutLength"]);
  const cutAcross = figureSetter(shell, ["outline", "cutWidth"]);
  const cut: Handle = {
    id: "cut",
    name: told.cut,
    at,
    shape: "point",
    along: null,
    stride: 1,
    value: cutLength,
    told: (print) => `${print(cutLength)} × ${print(cutWidth)}`,
    field: "shell.outline.cut",
    to: ({ x, y }, grain) =>
      together(
        cutAlong(onGrain((deep ? -1 : 1) * (x - box.x), grain)),
        cutAcross(onGrain(left * (box.y - y), grain)),
      ),
  };
  const radii = corners.flatMap((point, i) => {
    const key = i === reflex ? "reflexRadius" : "cornerRadius";
    const corner = cornerAt(point, corners[(i + 5) % 6], corners[(i + 1) % 6]);
    const radius = i === reflex ? reflexRadius : cornerRadius;
    return radiusHandle(shell, `radius-${i}`, told.radius(`corner ${i + 1}`), corner, radius, [
      "outline",
      key,
    ]);
  });
  const deepY = deep ? (-left * cutWidth) / 2 : 0;
  const sideX = deep ? (length - cutLength) / 2 : (length + cutLength) / 2;
  return [...boxHandles(shell, outline, deepY, sideX), cut, ...radii];
}

const place = ([x, y]: readonly [number, number]): Spot => ({ x, y });

/** A free point: it goes where it is put. */
function pointHandle(
  id: string,
  name: string,
  at: Spot,
  field: string,
  set: (p: [number, number]) => ReturnType<Handle["to"]>,
): Handle {
  return {
    id,
    name,
    at,
    shape: "point",
    along: null,
    stride: 1,
    value: at.x,
    told: (print) => words.drawing.alongAcross(print(at.x), print(at.y)),
    field,
    to: ({ x, y }, grain) => set([onGrain(x, grain), onGrain(y, grain)]),
  };
}

const pointHandles = (points: readonly (readonly [number, number])[]): Handle[] =>
  points.map((point, i) => {
    const path = ["outline", "points", i];
    return pointHandle(`point-${i}`, told.point(i + 1), place(point), fieldOf(path), (to) =>
      setting(["shell", ...path], to),
    );
  });

function polygonRadii(shell: ShellSpec, { points, cornerRadius }: Of<"polygon">): Handle[] {
  const count = points.length;
  return points.flatMap((point, i) => {
    const own = Array.isArray(cornerRadius);
    const corner = cornerAt(
      place(point),
      place(points[(i + count - 1) % count]),
      place(points[(i + 1) % count]),
    );
    const radius = own ? cornerRadius[i] : (cornerRadius as number);
    const path = ["outline", "cornerRadius", ...(own ? [i] : [])];
    return radiusHandle(shell, `radius-${i}`, told.radius(`corner ${i + 1}`), corner, radius, path);
  });
}

/** The joints of a path, and the height of each of its arcs over its chord. */
function pathHandles({ start, segments }: Of<"path">): Handle[] {
  const last = segments.length - 1;
  return segments.flatMap((segment, i) => {
    const from = place(i === 0 ? start : segments[i - 1].to);
    const before = i === 0 ? last : i - 1;
    const joint = pointHandle(
      `point-${i}`,
      told.point(i + 1),
      from,
      `shell.outline.segments[${before}].to`,
      (to) =>
        together(
          setting(["shell", "outline", "segments", before, "to"], to),
          // The path ends where it starts.
          i === 0 ? setting(["shell", "outline", "start"], [...to]) : () => {},
        ),
    );
    if (segment.kind === "line") return [joint];
    const chord = less(place(segment.to), from);
    const length = Math.hypot(chord.x, chord.y);
    const out = unit({ x: chord.y, y: -chord.x });
    const middle = { x: from.x + chord.x / 2, y: from.y + chord.y / 2 };
    const height = (segment.bulge * length) / 2;
    const path = ["shell", "outline", "segments", i, "bulge"];
    const bulge: Handle = {
      id: `bulge-${i}`,
      name: told.bulge(i + 1),
      at: { x: middle.x + height * out.x, y: middle.y + height * out.y },
      shape: "edge",
      along: out,
      stride: 1,
      value: height,
      told: (print) => print(height),
      field: formatPath(path),
      to: (spot, grain) => {
        const wanted = (2 * onGrain(dot(less(spot, middle), out), grain)) / length;
        return setting(path, Math.min(20, Math.max(-20, Number(wanted.toPrecision(9)))));
      },
    };
    return [joint, bulge];
  });
}
