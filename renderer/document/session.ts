import { createStore } from "zustand/vanilla";
import type { LengthStyle } from "../../core/units/length.ts";

/** The places of the factory, in the order in which a job walks through them. */
export const places = ["drawing-office", "lay-up-floor", "cutting-room", "showroom"] as const;
export type Place = (typeof places)[number];

export type Theme = "paper" | "slate" | "system";
export type Standing = "pool-up" | "plug-up";
export type View = "corner" | "plan" | "side" | "end" | "below";
export type Axis = "along" | "across" | "level";

/** A plane that cuts the shell open to be looked into. `at` from 0 to 1 through the shell along its axis. */
export interface Section {
  readonly axis: Axis;
  readonly at: number;
}

/** What one paints with on the lay-up floor. */
export const tools = ["band", "free-band", "rib", "gussets", "pad", "stiffener"] as const;
export type ToolName = (typeof tools)[number];

/** Something of the shell, the lay-up or the project that can be pointed at or chosen. */
export type Thing =
  | { readonly kind: "face"; readonly id: string }
  | { readonly kind: "transition"; readonly id: string }
  | { readonly kind: "zone"; readonly id: string };

/** The sides from which a buyer sees the pool. */
export const sides = ["inside", "outside"] as const;
export type Side = (typeof sides)[number];

/** The kinds of reinforcement as a buyer is told of them. */
export const reinforcements = ["bands", "ribs", "gussets", "pads", "stiffeners"] as const;
export type Reinforcement = (typeof reinforcements)[number];

/** Where one stands, what one looks at and points to. Never part of the document, never undone. */
export interface Session {
  readonly place: Place;
  readonly theme: Theme;
  /** How lengths are written. */
  readonly lengths: LengthStyle;
  /** Which way up the shell stands in each place: as a pool, or upside down on its plug. */
  readonly standing: Readonly<Record<Place, Standing>>;
  /** The view last asked for; `asked` counts the askings, so that the same view can be asked for again. */
  readonly view: { readonly name: View; readonly asked: number };
  readonly seeThrough: boolean;
  readonly section: Section | null;
  readonly dimensions: boolean;
  readonly grid: boolean;
  /** Shells of the lot that the cutting room cuts for. */
  readonly lot: number;
  /** What the showroom shows of the reinforcement, and whether the shell turns there. */
  readonly shown: ReadonlySet<Reinforcement>;
  readonly turning: boolean;
  /** Whether the buyer looks into the pool, or at its walls from outside, as it is set. */
  readonly side: Side;
  /** Sizes of the panels of each group as they were left, in percent. */
  readonly panels: Record<string, number[]>;
  /** The tool in hand; null: one chooses. */
  readonly tool: ToolName | null;
  /** Width of the brush for free bands, mm. */
  readonly brush: number;
  readonly hovered: Thing | null;
  /** In the order in which they were chosen. */
  readonly selected: readonly Thing[];
  /** The zone that was last asked to be shown near by, and where along its line, mm; null: all of it. */
  readonly closeUp: { readonly zone: string; readonly at: number | null; readonly asked: number } | null;
  /** Whether the list of what there is to look at stands open on the lay-up floor. */
  readonly looksOpen: boolean;
  /** Ids of zones that are not shown, and of zones that are not to be changed by accident. */
  readonly hidden: ReadonlySet<string>;
  readonly locked: ReadonlySet<string>;
}

export const session = createStore<Session>(() => ({
  place: "drawing-office",
  theme: "system",
  lengths: "mm",
  standing: {
    "drawing-office": "pool-up",
    "lay-up-floor": "plug-up",
    "cutting-room": "plug-up",
    showroom: "pool-up",
  },
  view: { name: "corner", asked: 0 },
  seeThrough: false,
  section: null,
  dimensions: true,
  grid: true,
  lot: 1,
  shown: new Set(),
  turning: false,
  side: "inside",
  panels: {},
  tool: null,
  brush: 300,
  hovered: null,
  selected: [],
  closeUp: null,
  looksOpen: false,
  hidden: new Set(),
  locked: new Set(),
}));

/** Asks the scene for a view of the whole shell. */
export const lookFrom = (name: View) =>
  session.setState(({ view }) => ({ view: { name, asked: view.asked + 1 } }));

/** Chooses one thing, or nothing; `more` adds it to what is chosen, or takes it out again. */
export function select(thing: Thing | null, more = false): void {
  session.setState(({ selected }) => {
    if (!more) return { selected: thing ? [thing] : [] };
    if (!thing) return {};
    const others = selected.filter((each) => !sameThing(each, thing));
    return { selected: others.length < selected.length ? others : [...selected, thing] };
  });
}

/** Asks the scene to show a zone from near by, or one place along its line (mm), and chooses it. */
export const showZone = (zone: string, at: number | null = null) =>
  session.setState(({ closeUp }) => ({
    selected: [{ kind: "zone", id: zone }],
    closeUp: { zone, at, asked: (closeUp?.asked ?? 0) + 1 },
  }));

/** Ids of the chosen zones. */
export const selectedZones = ({ selected }: Pick<Session, "selected">): string[] =>
  selected.filter(({ kind }) => kind === "zone").map(({ id }) => id);

export const sameThing = (a: Thing | null, b: Thing | null) => a?.kind === b?.kind && a?.id === b?.id;
