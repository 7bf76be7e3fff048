import type { Layout, LayoutChangedMeta } from "react-resizable-panels";
import { session } from "../document/session.ts";

/** The sizes of a group of panels as they were left last, by a name of the group; its panels in their order. */
export function keptSizes(group: string, panels: readonly string[]) {
  return {
    /** For the panel's `defaultSize`: read when it comes up. Undefined where nobody has dragged it yet. */
    sizeOf(panel: string): string | undefined {
      const kept = session.getState().panels[group];
      return kept?.length === panels.length ? `${kept[panels.indexOf(panel)]}%` : undefined;
    },
    /** For the group's `onLayoutChanged`: keeps what a person did, not what the window's size brings about. */
    keep(layout: Layout, { isUserInteraction }: LayoutChangedMeta): void {
      if (!isUserInteraction || panels.some((panel) => layout[panel] === undefined)) return;
      const sizes = panels.map((panel) => layout[panel]);
      session.setState((s) => ({ panels: { ...s.panels, [group]: sizes } }));
    },
  };
}
