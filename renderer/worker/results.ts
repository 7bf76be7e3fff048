import { createStore, type StoreApi } from "zustand/vanilla";
import type { Kit } from "../../core/cutting/kit.ts";
import type { AdriftZone } from "../../core/layup/laid.ts";
import type { Project, ShellSpec } from "../../core/project/schema.ts";
import type { Refusal } from "../../core/shell/shell.ts";
import type { Drawing } from "./drawing/drawing.ts";
import type { LineView, MeasureView, Part, ShellView, Stage, TapeView, ZoneView } from "./messages.ts";

/** A zone as the worker laid it, with its drawing at hand. */
export type LaidZoneView = Omit<ZoneView, "drawing"> & { readonly drawing: Drawing };

/**
 * What the worker made of the project, as far as it has come. The last good shell stays while a figure is wrong; `refusals`
 * then says what is.
 */
export interface Results {
  readonly shell: ShellView | null;
  readonly lines: readonly LineView[];
  readonly zones: readonly LaidZoneView[];
  readonly adrift: readonly AdriftZone[];
  readonly kit: Kit | null;
  readonly tape: TapeView | null;
  readonly measure: MeasureView | null;
  /** The shell that was measured: after a change it is an earlier one until the new measures are there. */
  readonly measureOf: ShellSpec | null;
  readonly refusals: readonly Refusal[];
  /** Whether the shell is being measured, beside all else. */
  readonly measuring: boolean;
  /** What is being worked out; null when all is done. */
  readonly stage: Stage | null;
  /** The project that the kit was last cut for. */
  readonly of: Project | null;
  /** A fault of the program while working it out, in its own words. */
  readonly fault: string | null;
}

export type ResultsStore = StoreApi<Results>;

const noResults: Results = {
  shell: null,
  lines: [],
  zones: [],
  adrift: [],
  kit: null,
  tape: null,
  measure: null,
  measureOf: null,
  refusals: [],
  measuring: false,
  stage: null,
  of: null,
  fault: null,
};

export const makeResultsStore = (): ResultsStore => createStore<Results>(() => noResults);

/** Results with one more part. */
export function takeIn(results: Results, part: Part): Results {
  switch (part.kind) {
    case "stage":
      return { ...results, stage: part.name, fault: null };
    case "refused":
      return { ...results, refusals: part.refusals };
    case "shell":
      return { ...results, shell: part.shell, lines: part.lines ?? results.lines, refusals: [] };
    case "lines":
      return { ...results, lines: part.lines, refusals: [] };
    case "layup": {
      const known = new Map(results.zones.map((zone) => [zone.drawingKey, zone.drawing]));
      const zones = part.layup.zones.map((zone): LaidZoneView => {
        const drawing = zone.drawing ?? known.get(zone.drawingKey);
        if (!drawing) throw new Error(`The drawing of zone ${zone.id} was never given.`);
        return { ...zone, drawing };
      });
      return { ...results, zones, adrift: part.layup.adrift };
    }
    case "kit":
      return { ...results, kit: part.kit };
    case "tape":
      return { ...results, tape: part.tape };
    case "measure":
      return { ...results, measure: part.measure };
  }
}
