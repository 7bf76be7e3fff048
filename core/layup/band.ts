import type { ZoneSpec } from "../project/schema.ts";
import type { Transition } from "../shell/transitions.ts";
import { layStrip, type Strip, type StripSampling, stripArea } from "../surface/strip.ts";
import { type Astray, isAstray, mm, unknownFace, unknownName } from "./adrift.ts";
import { rimToFoot, stripMarks, stripStart } from "./band-marks.ts";
import { called, liesOver } from "./keep-outs.ts";
import type { LaidBand } from "./laid.ts";
import { climbsOverRim } from "./over-rim.ts";
import { featuresOf, materialOf, type Site } from "./site.ts";
import { laminateTooThick } from "./thick-laminate.ts";

type BandSpec = Extract<ZoneSpec, { kind: "band" }>;

/**
 * Samples of a band at most this far apart along its line and across it, mm: strips sample more closely of themselves
 * wherever the line or the surface turns.
 */
export const bandSampling: StripSampling = { alongMm: 120, acrossMm: 30 };
/** A stretch shorter than this has vanished, mm. */
const SHORTEST = 10;

/** A band that covers less than this has no surface to lie on, mm². */
export const LEAST_AREA = 100;

/** What there is to say of a line beside which the shell has no surface. */
export const noSurface = (line: string): Astray => ({
  why: `The surface is lost all along ${line}, so that no band can lie on it.`,
  mend: "Look at the shell's own self-check: its surface is torn there.",
});

/** Lays a band along a transition of the shell, or says why it finds no place. */
export function layBand(site: Site, spec: BandSpec): LaidBand | Astray {
  const material = materialOf(site.project, spec.material, "woven");
  if (isAstray(material)) return material;
  const line = bandLine(site, spec);
  if (isAstray(line)) return line;
  const { on } = line;
  const strip = stripOn(site, on, line, spec.halfWidths);
  if (isAstray(strip)) return strip;
  const { plyWidths, thin } = taper(spec.halfWidths, spec.plies, site.project.shop.plyStep);
  const plyAreasMm2 = plyWidths.map(([left, right]) => stripArea(strip, strip.from, strip.to, left, right));
  return {
    id: spec.id,
    spec,
    kind: "band",
    material,
    areaMm2: strip.areaMm2,
    lengthMm: strip.midLengthMm,
    plies: spec.plies,
    curve: on.curve,
    strip,
    plyWidths,
    plyAreasMm2,
    tape:
      strip.closed && on.kind === "foot"
        ? [stripStart(site, strip), ...rimToFoot(site, on, spec.halfWidths[0])]
        : stripMarks(site, strip),
    doubts: [
      ...(on.exact ? [] : [`its line is only as exact as the mesh: ${on.reason}`]),
      ...thin,
      ...stripDoubts(site, strip),
      ...climbsOverRim(site, strip, "half width"),
    ],
  };
}

/** The transition that a band runs along, and from which station to which, mm; or why there is none. */
export function bandLine(
  site: Site,
  spec: BandSpec,
): { readonly on: Transition; readonly from: number; readonly to: number } | Astray {
  const on = site.transitions.find((transition) => transition.id === spec.on);
  if (!on) return noTransition(site, spec.on);
  const stretch = stretchOf(spec, on);
  return isAstray(stretch) ? stretch : { on, ...stretch };
}

/** Transitions of a name that the shell does not have: the names between the same faces come first. */
function noTransition(site: Site, id: string): Astray {
  const known = site.transitions.map((transition) => transition.id);
  const [a, b] = id.split("#")[0].split("|");
  const turned = known.find((each) => each === `${b}|${a}`);
  if (turned) {
    return {
      why: `This shell has no transition ${id}.`,
      mend: `Its faces stand the other way round: ${turned}.`,
    };
  }
  const faces = site.shell.faces.map((face) => face.id);
  // A name with no bar is one of the transitions that stand for several, or nearly.
  const lost = b === undefined ? [] : [a, b].filter((face) => !faces.includes(face));
  if (lost.length > 0) return unknownFace("face", lost[0], faces, featuresOf(site));
  const beside = known.filter((each) =>
    each
      .split("#")[0]
      .split("|")
      .some((face) => face === a || face === b),
  );
  return unknownName("transition", id, beside.length > 0 ? beside : known);
}

/** The asked-for stretch in stations of the transition's curve, or null for the whole of it. */
function stretchOf(spec: BandSpec, on: Transition): { from: number; to: number } | Astray {
  const length = on.curve.length;
  if (!spec.stretch) return { from: 0, to: length };
  const { from, to } = spec.stretch;
  // A closed line may be run past its beginning, and all round from any place.
  const start = on.closed && from === 1 ? 0 : from;
  const past = on.closed && to <= start ? 1 : 0;
  const stretch = { from: start * length, to: (to + past) * length };
  if (stretch.to - stretch.from >= SHORTEST) return stretch;
  if (!on.closed && to < from) {
    return {
      why: `${on.id} is an open line, so a stretch from ${from} back to ${to} is none.`,
      mend: `Let it run from ${to} to ${from}.`,
    };
  }
  return {
    why: `The stretch from ${from} to ${to} of ${on.id} is only ${mm(stretch.to - stretch.from)} long.`,
    mend: `A stretch of at least ${mm(SHORTEST)}; ${on.id} is ${mm(length)} long.`,
  };
}

function stripOn(
  site: Site,
  on: Transition,
  stretch: { from: number; to: number },
  halfWidths: readonly [number, number],
): Strip | Astray {
  try {
    const strip = layStrip(site.field, on.curve, stretch, halfWidths, bandSampling);
    return strip.areaMm2 >= LEAST_AREA ? strip : noSurface(on.id);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    const tooThick = laminateTooThick(site.project, on.kind === "rim" ? "rim" : "nose");
    if (tooThick) return tooThick;
    return { why: error.message, mend: `Look at ${on.id}: ${on.reason || "its line leaves the surface"}.` };
  }
}

/** Each ply further out stops short of the one below at both edges; one that has no width left is named. */
export function taper(
  halfWidths: readonly [number, number],
  plies: number,
  step: number,
): { plyWidths: [number, number][]; thin: string[] } {
  const plyWidths = Array.from({ length: plies }, (_, k): [number, number] => [
    Math.max(0, halfWidths[0] - k * step),
    Math.max(0, halfWidths[1] - k * step),
  ]);
  const gone = plyWidths.findIndex(([left, right]) => left + right <= 0);
  const thin = gone < 0 ? [] : [`from ply ${gone + 1} on no width is left at a step of ${mm(step)} a ply`];
  return { plyWidths, thin };
}

/** What a strip's own report and the fittings under it give to look at. */
export function stripDoubts(site: Site, strip: Strip): string[] {
  const doubts: string[] = [];
  for (const why of ["open edge", "surface lost"] as const) {
    const short = strip.cutShort.filter((cut) => cut.why === why);
    if (short.length === 0) continue;
    const least = Math.min(...short.map((cut) => cut.leastMm));
    const what = why === "open edge" ? "the edge of the shell" : "the end of the surface";
    const over = short.reduce((sum, cut) => sum + cut.to - cut.from, 0);
    doubts.push(`${what} cuts it to ${mm(least)} on one side, over ${mm(over)} of its length`);
  }
  for (const keepOut of site.keepOuts) {
    const over = [strip.left, strip.right].some(({ points }) => {
      for (let i = 0; i < points.length; i += 3)
        if (liesOver(keepOut, points[i], points[i + 1], points[i + 2], 0)) return true;
      return false;
    });
    if (over) doubts.push(`it covers ${called(keepOut)}: cut the cloth out there`);
  }
  return doubts;
}
