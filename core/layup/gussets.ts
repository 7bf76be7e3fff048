import type { ZoneSpec } from "../project/schema.ts";
import type { Transition } from "../shell/transitions.ts";
import { curvePointAt } from "../surface/curve.ts";
import { sectionPolyline } from "../surface/section.ts";
import { type Astray, isAstray, mm, unknownFace } from "./adrift.ts";
import { flatShape } from "./flat-shape.ts";
import { spaced } from "./intervals.ts";
import type { FlatShape, LaidGusset, LaidGussets, TapeMark } from "./laid.ts";
import { featuresOf, materialOf, type Site } from "./site.ts";
import { readTape } from "./tape.ts";
import { type NoseFaces, type TreadSection, treadSection } from "./tread-section.ts";

type GussetSpec = Extract<ZoneSpec, { kind: "gussets" }>;

/** A web shorter than this on either side carries nothing, mm: the least that a project may ask for. */
const LEAST_LEG = 50;
/** The web's outline stays within this of the surface, mm: its chords cut inside the nose's radius, so that it clears it. */
const SAGITTA = 0.05;

/**
 * Lays webs under a tread, bench or ledge top at a pitch along its nose, each square to the riser in the corner behind the nose. A
 * web is bounded by the section of the lay-up surface (the tread's back out to `reach`, round the nose's radius, the riser's back
 * down to `drop`, both measured from where the backs would meet without the radius) and a straight edge between the two
 * ends. Where a radius ends the plain tread or riser sooner, the web is shorter, with a doubt.
 */
export function layGussets(site: Site, spec: GussetSpec): LaidGussets | Astray {
  const material = materialOf(site.project, spec.material, "sheet");
  if (isAstray(material)) return material;
  const noses = nosesOf(site, spec.under);
  if (isAstray(noses)) return noses;
  const webs: Web[] = [];
  let places = 0;
  let lengthMm = 0;
  const missing: string[] = [];
  for (const nose of noses.lines) {
    const room = nose.curve.length - (nose.closed ? 0 : 2 * spec.margin);
    const stations = stationsAlong(nose, spec, room);
    if (stations.length > 0) lengthMm += room;
    for (const station of stations) {
      const name = String(++places);
      const web = webAt(site, nose, noses, station, spec);
      if (web) webs.push({ ...web, name });
      else missing.push(`web ${name} is left out: there is no plain corner under ${spec.under} there`);
    }
  }
  if (places === 0) {
    const longest = Math.max(...noses.lines.map((line) => line.curve.length));
    return {
      why: `The nose of ${spec.under} is ${mm(longest)} long, which margins of ${mm(spec.margin)} use up.`,
      mend: `A margin of at most ${mm(longest / 2)}.`,
    };
  }
  if (webs.length === 0) {
    return {
      why: `Under ${spec.under} no web finds ${LEAST_LEG} mm of plain tread and riser to stand on.`,
      mend: "A wider tread, a higher riser, or no gussets here.",
    };
  }
  return {
    id: spec.id,
    spec,
    kind: "gussets",
    material,
    areaMm2: webs.reduce((sum, web) => sum + web.shape.areaMm2, 0),
    lengthMm,
    plies: 1,
    tape: marksOf(site, webs),
    doubts: [...missing, ...shorter(webs, spec)],
    gussets: webs.map(({ name, shape, section, alongMm }): LaidGusset => {
      const { origin, u, v } = section.plane;
      return { name, shape, origin, xDirection: u, yDirection: v, alongMm };
    }),
  };
}

/** The nose lines of a tread, bench or ledge top and the faces that meet there. */
export function nosesOf(site: Site, under: string): (NoseFaces & { lines: readonly Transition[] }) | Astray {
  const { faces } = site.shell;
  const tread = faces.findIndex((face) => face.id === under);
  const treads = faces.filter((face) => face.kind === "tread").map((face) => face.id);
  if (tread < 0) return unknownFace("tread, bench or ledge top", under, treads, featuresOf(site));
  if (faces[tread].kind !== "tread") {
    const names = treads.length > 0 ? `One of ${treads.join(", ")}.` : "This shell has none.";
    return { why: `${under} is no tread, bench or ledge top.`, mend: names };
  }
  const riser = tread + 1;
  const lines = site.transitions.filter(
    ({ kind, between }) => kind === "nose" && between[0] === under && between[1] === faces[riser].id,
  );
  if (lines.length > 0) return { tread, riser, lines };
  return {
    why: `${under} has no nose to be seen on this shell: its edge lies under other faces.`,
    mend: "Bring its edge into sight, or leave the zone out.",
  };
}

interface Web {
  readonly name: string;
  readonly shape: FlatShape;
  readonly section: TreadSection;
  readonly alongMm: number;
  readonly reach: number;
  readonly drop: number;
  readonly nose: readonly [number, number, number];
}

function stationsAlong(nose: Transition, spec: GussetSpec, room: number): number[] {
  if (!nose.closed) return spaced({ from: spec.margin, to: nose.curve.length - spec.margin }, spec.pitch);
  const count = Math.max(1, Math.floor(room / spec.pitch));
  return Array.from({ length: count }, (_, i) => (room * i) / count);
}

function webAt(
  site: Site,
  nose: Transition,
  faces: NoseFaces,
  station: number,
  spec: GussetSpec,
): Omit<Web, "name"> | null {
  const section = treadSection(site, nose, faces, station, spec.reach, spec.drop);
  if (!section) return null;
  const reach = Math.min(spec.reach, section.underPlain);
  const drop = Math.min(spec.drop, section.downPlain);
  if (reach < LEAST_LEG || drop < LEAST_LEG) return null;
  const shape = webShape(section, reach, drop);
  const at = new Float64Array(9);
  curvePointAt(nose.curve, station, at);
  return {
    shape,
    section,
    alongMm: station,
    reach,
    drop,
    nose: [at[0], at[1], at[2]],
  };
}

/** The outline of a web: in from its far end along the tread's back, round the nose and down the riser's back. */
function webShape(section: TreadSection, reach: number, drop: number): FlatShape {
  const under = sectionPolyline(section.under, section.plane, SAGITTA);
  const down = sectionPolyline(section.down, section.plane, SAGITTA);
  const [rx, ry] = section.riserDirection;
  const pairs: number[] = [reach, 0];
  // Both runs begin on the nose line: the first is taken backwards, up to its end; both ends are straight.
  for (let i = under.length - 2; i >= 0; i -= 2) if (under[i] < reach) pairs.push(under[i], under[i + 1]);
  for (let i = 2; i < down.length; i += 2) {
    if (down[i] * rx + down[i + 1] * ry < drop) pairs.push(down[i], down[i + 1]);
  }
  pairs.push(drop * rx, drop * ry);
  return flatShape(pairs);
}

function shorter(webs: readonly Web[], spec: GussetSpec): string[] {
  const doubts: string[] = [];
  const tell = (key: "reach" | "drop", asked: number, where: string) => {
    const short = webs.filter((web) => web[key] < asked - 0.5);
    if (short.length === 0) return;
    const least = Math.min(...short.map((web) => web[key]));
    const which =
      short.length === webs.length ? "the webs" : `webs ${short.map(({ name }) => name).join(", ")}`;
    doubts.push(`${which} ${key} only ${mm(least)} instead of ${mm(asked)}: ${where} begins there`);
  };
  tell("reach", spec.reach, "the radius at the back of the tread");
  tell("drop", spec.drop, "the radius at the foot of the riser");
  return doubts;
}

/** The nose of every web. */
function marksOf(site: Site, webs: readonly Web[]): TapeMark[] {
  return webs.map((web) => ({ what: `web ${web.name}`, ...readTape(site, web.nose) }));
}
