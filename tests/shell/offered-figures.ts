/** What refusals say would work, put into the shell that was refused. */
import { z } from "zod";
import { buildOutline } from "../../core/plan/build-outline.ts";
import { cornerFigure } from "../../core/plan/outlines/corner-figure.ts";
import { fieldAt } from "../../core/project/branch.ts";
import { checkProject } from "../../core/project/parse.ts";
import {
  type FeatureSpec,
  type Project,
  project,
  type RimPlace,
  type ShellSpec,
} from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { goingsDownTo, reachFigure } from "../../core/shell/feature-figures.ts";
import { radiiOf } from "../../core/shell/radii.ts";
import type { Refusal } from "../../core/shell/shell.ts";

type Change = (spec: ShellSpec, figure: number) => void;
const keysOf = (path: string): string[] => path.split(/[.[\]]+/).filter(Boolean);

/** What stands at a path of the project, the shell taken for all of it. */
const at = (spec: ShellSpec, path: string): unknown =>
  keysOf(path).reduce<unknown>((part, key) => (part as Record<string, unknown>)?.[key], { shell: spec });

function put(spec: ShellSpec, path: string, value: unknown): void {
  const keys = keysOf(path);
  const last = keys.pop() as string;
  const parent = at(spec, keys.join(".")) as Record<string, unknown>;
  parent[last] = value;
}

/** Gives a pair of faces a radius, of its own where it has one. */
function putPair(spec: ShellSpec, faces: readonly [string, string], radius: number): boolean {
  const pairs = spec.radii.pairs.filter(({ between }) => faces.every((face) => between.includes(face)));
  for (const pair of pairs) pair.radius = radius;
  return pairs.length > 0;
}

const tiers = (spec: ShellSpec): [string, string][] =>
  spec.features.flatMap((feature: FeatureSpec) =>
    feature.kind === "steps"
      ? feature.treads.map((_, i): [string, string] => [
          `${feature.id}/tread-${i + 1}`,
          `${feature.id}/riser-${i + 1}`,
        ])
      : [[`${feature.id}/top`, `${feature.id}/riser`] as [string, string]],
  );

/** Brings radii to the wall to a limit, of those pairs whose own or general one is past it. */
const radiiToTheWall =
  (limit: (radius: number, figure: number) => number): Change =>
  (spec, figure) => {
    const radii = radiiOf(spec);
    for (const face of tiers(spec).flat()) {
      const radius = limit(radii.step(face, "wall"), figure);
      if (radius === radii.step(face, "wall") || putPair(spec, [face, "wall"], radius)) continue;
      spec.radii.pairs.push({ between: [face, "wall"], radius });
    }
  };

/** A figure, and no number of a thing. */
const FIGURE = /(?<![\w.-])-?\d+(?:\.\d+)?/;

/** What each form of words changes, but for those of the refused figure itself. */
const FORMS: readonly [RegExp, Change][] = [
  [
    /draft of at most #/,
    (s, n) => {
      s.draftDeg = n;
    },
  ],
  [
    /cove of at most #/,
    (s, n) => {
      if (!putPair(s, ["wall", "floor"], n)) s.radii.cove = n;
    },
  ],
  [
    /step radius of at most #/,
    (s, n) => {
      s.radii.step = n;
    },
  ],
  [/radii to the wall of at most #/, radiiToTheWall(Math.min)],
  [/radii to the wall of at least #/, radiiToTheWall(Math.max)],
  [
    /noses of at least #/,
    (s, n) => {
      s.radii.nose = Math.max(n, s.radii.nose);
      for (const tier of tiers(s)) putPair(s, tier, Math.max(n, radiiOf(s).nose(...tier)));
    },
  ],
  [
    /edge radius of at most #/,
    ({ coping: { edge } }, n) => {
      if (edge.kind !== "flat") edge.radius = n;
    },
  ],
  [
    /rim radius of at most #/,
    (s, n) => {
      if (!putPair(s, ["wall", "coping/top"], n)) s.coping.rimRadius = n;
    },
  ],
  [
    /reflex radius of at least #/,
    ({ outline }, n) => {
      if (outline.kind === "ell") outline.reflexRadius = n;
    },
  ],
  [
    /length of at least #/,
    ({ outline }, n) => {
      if ("length" in outline) outline.length = n;
    },
  ],
];

/** Forms that speak of the refused figure itself. */
const OWN = /^(?:an? (?:[\w-]+ )*)?(?:of )?(?:at (?:least|most) )?#(?: mm)?(?: .*)?$/;

/** A thing that a refusal offers, and the shell with its figures put in. */
interface Offer {
  readonly words: string;
  readonly spec: ShellSpec;
}

/** Everything that a refusal offers which can be put in as it stands; `others`: all refusals of the same shell. */
function offersOf(spec: ShellSpec, refusal: Refusal, others: readonly Refusal[]): Offer[] {
  return refusal.wouldWork.split(/, or |; /).flatMap((words): Offer[] => {
    const changed = structuredClone(spec);
    return changeBy(changed, words, refusal, others) ? [{ words, spec: changed }] : [];
  });
}

/** What is said in plain words, where no single figure of the file would do. */
const PLAIN = [
  /^points in the order/,
  /^a turn of at most/,
  /^a radius of (?:at least )?\d+ mm at (?:span|segment)-\d+/,
  /^a radius of at least 25 mm: points further apart/,
  /^arcs of at least \d+ mm there/,
  /^at least \d+ mm (?:across|between \S+ and \S+)/,
  /^another place for /,
  /^longer sides at corner-\d+/,
  /^stations further apart/,
  /^another place, such as a part of [\d.]+ along and a part of [\d.]+ across$/,
  /^a smaller opening: /,
  /^another place, where .* is at least \d+ mm deep at the wall(?:, at a depth of \d+ mm)?$/,
  /^faces that meet at 90°/,
];

/** Refusals of a shell that offer no figure, or one that the project does not take or that is refused again; and how many figures were tried. */
export function wrongOffers(spec: ShellSpec): { readonly offers: number; readonly wrong: string[] } {
  const built = buildShell(spec);
  if (built.ok) return { offers: 0, wrong: [] };
  const wrong: string[] = [];
  let offers = 0;
  for (const refusal of built.refusals) {
    const tell = (fault: string) =>
      wrong.push(`${fault}: ${refusal.path} ${refusal.why} => ${refusal.wouldWork}`);
    const figures = offersOf(spec, refusal, built.refusals);
    offers += figures.length;
    if (figures.length === 0 && !PLAIN.some((form) => form.test(refusal.wouldWork))) tell("names no figure");
    for (const { words, spec: changed } of figures) {
      const beyond = project.shape.shell.safeParse(changed).error?.issues[0];
      if (beyond) {
        tell(`"${words}" is ${beyond.message} at ${beyond.path.join(".")}`);
        continue;
      }
      const again = buildShell(changed);
      if (!again.ok && again.refusals.some((other) => isSame(other, refusal)))
        tell(`"${words}" is refused again`);
    }
  }
  return { offers, wrong };
}

/**
 * Offers of a shell that lead back and forth: put in, the same field is refused for another reason, or what is offered against what
 * is refused then brings the first refusal back. What could not be looked at before the outline was drawn is no other reason.
 */
export function backAndForth(spec: ShellSpec): string[] {
  const first = buildShell(spec);
  if (first.ok) return [];
  const isDrawn = buildOutline(spec.outline).ok;
  const wrong: string[] = [];
  for (const refusal of first.refusals)
    for (const offer of offersOf(spec, refusal, first.refusals)) {
      const second = buildShell(offer.spec);
      if (second.ok) continue;
      const fresh = second.refusals.filter((each) => !first.refusals.some((other) => isSame(other, each)));
      for (const next of fresh) {
        const way = `${refusal.path} ${refusal.why}: "${offer.words}"; then ${next.path} ${next.why}`;
        if (isDrawn && next.path === refusal.path) wrong.push(way);
        for (const back of offersOf(offer.spec, next, second.refusals)) {
          const third = buildShell(back.spec);
          if (!third.ok && third.refusals.some((each) => isSame(each, refusal)))
            wrong.push(`${way}: "${back.words}", and back`);
        }
      }
    }
  return wrong;
}

/** A project's shell with each of its figures in turn at the least and at the most that the project takes. */
export function figuresAtTheirEnds(made: Project): ShellSpec[] {
  const { shell: spec } = made;
  return pathsOfFigures(spec, ["shell"]).flatMap((keys) => {
    const field = fieldAt(project, made, keys)?.schema;
    if (!(field instanceof z.ZodNumber)) return [];
    return [field.minValue, field.maxValue].flatMap((end) => {
      const changed = structuredClone(spec);
      put(changed, keys.join("."), end);
      return checkProject({ ...made, shell: changed, layup: [] }).ok ? [changed] : [];
    });
  });
}

function pathsOfFigures(value: unknown, path: readonly string[]): (readonly string[])[] {
  if (typeof value === "number") return [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => pathsOfFigures(inner, [...path, key]));
}

function changeBy(spec: ShellSpec, said: string, refusal: Refusal, others: readonly Refusal[]): boolean {
  const [words, also] = said.split(" and with it ");
  if (also && !changeBy(spec, also, refusal, others)) return false;
  const before = JSON.stringify(spec);
  const { path } = refusal;
  const feature = /^shell\.features\[\d+\]/.exec(path)?.[0];
  const figure = Number(FIGURE.exec(words)?.[0]);
  const form = words.replace(new RegExp(FIGURE, "g"), "#");
  const known = FORMS.find(([like]) => like.test(form));
  const read = (form: RegExp) => form.exec(words)?.slice(1);
  const [run] = read(/^one of(?: \d+ runs)?: ([\w-]+)/) ?? [];
  const [one, other] = read(/^a radius between (\S+) and (\S+) of at most/) ?? [];
  const [end, kind, place] =
    read(/^an? (start|end) at a (part|distance) of at (?:most|least) ([\d.]+)/) ?? [];
  const elsewhere = read(/^another place, such as a (part|distance) of ([\d.]+)(?: mm)? on ([^\s,]+)/);
  const there = read(/ at a depth of (\d+) mm$/)?.map(Number)[0];
  const [corner] = read(/^a radius of (?:at least )?\d+ mm at (\S+)$/) ?? [];
  const set = corner ? cornerFigure(spec.outline, corner) : undefined;
  const [foot] = read(/^a radius at the foot of (\S+) of at most/) ?? [];
  const [deeper] = read(/^a depth of at most \d+ mm of \S+\/tread-(\d+)$/) ?? [];
  const [owner] = read(/^a (?:width|reach|going) of at (?:most|least) \d+ mm of (\S+)/) ?? [];
  if (run) put(spec, path, run);
  else if (/ mm (?:across|between \S+ and \S+)$/.test(words) || (set && typeof set.value !== "number"))
    return false;
  else if (set) put(spec, set.path, sameField(refusal, others, form, figure));
  else if (/^a depth of at (?:most|least) # mm there$/.test(form))
    put(spec, path.replace(/at$/, "depth"), figure);
  else if (/^a height of at most # mm(?: at a depth of # mm)?$/.test(form))
    putFitting(spec, path, { height: figure, depth: there });
  else if (elsewhere) {
    const [kind, place, run] = elsewhere;
    putFitting(spec, path, { wall: { run, [kind]: Number(place) } as RimPlace, depth: there });
  } else if (foot || /^a cove and radii at the foot of risers/.test(words)) {
    if (!foot && !putPair(spec, ["wall", "floor"], figure))
      spec.radii.cove = Math.min(figure, spec.radii.cove);
    spec.radii.step = Math.min(figure, spec.radii.step);
    for (const pair of spec.radii.pairs) pair.radius = Math.min(figure, pair.radius);
  } else if (one) putPair(spec, [one, other], figure);
  else if (deeper) put(spec, `${feature}.treads[${Number(deeper) - 1}].depth`, figure);
  else if (end) put(spec, `${feature}.place.${end === "start" ? "from" : "to"}.${kind}`, Number(place));
  else if (/^at most \d+ treads?$/.test(words))
    put(spec, `${feature}.treads`, (at(spec, `${feature}.treads`) as unknown[]).slice(0, figure));
  else if (owner)
    spec.features = reachFigure(spec.features, owner.includes("/") ? owner : `${owner}/top`).changed(figure);
  else if (/^goings that come to/.test(words))
    spec.features = goingsDownTo(
      spec.features,
      topOf(spec, path),
      radiiOf(spec),
      path.includes(".place."),
    ).changed(figure);
  else if (/every [xy and]+ times/.test(words)) stretch(spec, words);
  else if (/cut down|beside one of/.test(words)) {
    // Several figures that are refused together, each with its own.
    for (const each of others) put(spec, each.path, Number(/\d+(?:\.\d+)?/.exec(each.wouldWork)?.[0]));
  } else if (/^a nose of at most/.test(words) && path.startsWith("shell.features")) spec.radii.nose = figure;
  else if (known) known[1](spec, figure);
  else if (OWN.test(form) && typeof at(spec, path) === "number")
    put(spec, path, sameField(refusal, others, form, figure));
  return JSON.stringify(spec) !== before;
}

/** Gives the fitting that a path leads to another height, place or depth. */
function putFitting(
  spec: ShellSpec,
  path: string,
  { height, wall, depth }: { height?: number; wall?: RimPlace; depth?: number },
): void {
  const fitting = spec.fittings[Number(keysOf(path)[2])];
  if (height !== undefined) fitting.height = height;
  if (!("wall" in fitting.at)) return;
  fitting.at = { wall: wall ?? fitting.at.wall, depth: depth ?? fitting.at.depth };
}

/** One field may be refused for several corners: the figure that does for all of them. */
function sameField({ path }: Refusal, others: readonly Refusal[], form: string, figure: number): number {
  const figures = others
    .filter((other) => other.path === path)
    .map(({ wouldWork }) => Number(/-?\d+(?:\.\d+)?/.exec(wouldWork)?.[0]));
  return /^(?:a radius of|arcs of)/.test(form) ? Math.max(figure, ...figures) : figure;
}

/** The tread whose figure stands at a path, or the first of its feature. */
function topOf(spec: ShellSpec, path: string): string {
  const [, , feature, , tread] = keysOf(path);
  return `${spec.features[Number(feature)].id}/tread-${(Number(tread) || 0) + 1}`;
}

/** All points of an outline further out or in, along one axis or both. */
function stretch({ outline }: ShellSpec, words: string): void {
  const [, axes, times] = /every ([xy]|x and y) times ([\d.]+)/.exec(words) ?? [];
  const points =
    outline.kind === "path"
      ? [outline.start, ...outline.segments.map(({ to }) => to)]
      : "points" in outline
        ? outline.points
        : [];
  for (const point of points) {
    if (axes.includes("x")) point[0] *= Number(times);
    if (axes.includes("y")) point[1] *= Number(times);
  }
}

/** True for the refusal of the same figure for the same reason, whatever its figures are now. */
function isSame(one: Refusal, other: Refusal): boolean {
  const form = ({ why }: Refusal) => why.replace(/-?\d+(?:\.\d+)?(?! *mm beside)/g, "#");
  return one.path === other.path && form(one) === form(other);
}
