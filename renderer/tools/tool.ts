import type { HouseBand } from "../../core/layup/house-rules.ts";
import type { Outline } from "../../core/plan/chain.ts";
import type { Project, SurfacePlace, ZoneSpec } from "../../core/project/schema.ts";
import type { Thing } from "../document/session.ts";
import type { LineView, ShellView } from "../worker/messages.ts";
import type { NewZone } from "./zone-edits.ts";

/** A point of the shell that is pointed at, mm, and the face that owns it. */
export interface Aim {
  readonly point: readonly [number, number, number];
  readonly face: string;
  /** Its place by name and proportion, where that is known already, as on the tape. */
  readonly place?: SurfacePlace;
}

/** What tools work on: the project and its shell as the window knows them. */
export interface Ground {
  readonly project: Project;
  readonly outline: Outline;
  readonly shell: Pick<ShellView, "faces">;
  readonly lines: readonly LineView[];
  /** How the house rules lay a band on a transition, by its id. */
  readonly bands: Readonly<Record<string, HouseBand>>;
  /** Width of the brush, mm. */
  readonly brush: number;
  /** The places of points by name and proportion; null where a point has none. */
  readonly placesOf: (aims: readonly Aim[]) => Promise<readonly (SurfacePlace | null)[]>;
  /** The zones as they stand, for their ends. */
  readonly zones: readonly ZoneSpec[];
}

/** A place that a tool can lay on, by name: the way to it without a pointer. */
export interface Place {
  readonly id: string;
  readonly name: string;
  readonly zone: NewZone;
  /** What lights up while it is offered. */
  readonly lights: Thing | null;
}

/** A tool turns what is pointed at into a zone, by the house rules. Pure: nothing is laid until the person says so. */
export interface Tool {
  /** What a click here lays; null: there is nothing for this tool here. */
  at(ground: Ground, aim: Aim): Place | null;
  /** What a drag from one place to another lays; left out: this tool does not drag. `path`: all points in between. */
  along?(ground: Ground, from: Aim, to: Aim, path: readonly Aim[]): Place | null | Promise<Place | null>;
  /** Whether a drag may start here; where a click lays something if it is left out. */
  starts?(ground: Ground, from: Aim): boolean;
  /** Every place that it can lay on. */
  places(ground: Ground): readonly Place[];
}
