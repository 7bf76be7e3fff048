import { useEffect, useRef } from "react";
import { useDesk } from "../../desk.ts";
import { session, type ToolName } from "../../document/session.ts";
import { choose, deleteChosen, duplicateChosen, mirrorChosen, turn } from "./acts.ts";

/** Keys of the tools. */
const toolKeys: Readonly<Record<string, ToolName | null>> = {
  c: null,
  b: "band",
  f: "free-band",
  r: "rib",
  g: "gussets",
  p: "pad",
  s: "stiffener",
};

/** What the floor itself does on a key. */
interface Own {
  /** Opens the list of places by name. */
  readonly byName: () => void;
  /** Opens the sheet of keys. */
  readonly help: () => void;
  /** Shows what the house rules would lay. */
  readonly layUpAll: () => void;
}

/** The keys of the lay-up floor. Fields and lists keep theirs: letters there are for typing. */
export function useFloorKeys(own: Own): void {
  const desk = useDesk();
  const latest = useRef(own);
  latest.current = own;
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.altKey || !(event.target instanceof Element)) return;
      const act = actFor(event, event.target);
      if (!act) return;
      event.preventDefault();
      act();
    };
    const actFor = (event: KeyboardEvent, target: Element): (() => void) | null => {
      const typing = target.closest("input, textarea, [role=dialog], [role=alertdialog]") !== null;
      if (typing) return null;
      const inList = target.closest("[role=listbox], [role=slider], select") !== null;
      const key = event.key.toLowerCase();
      if (event.ctrlKey || event.metaKey) {
        if (key === "d") return () => duplicateChosen(desk);
        if (key === "a" && !inList)
          return () => choose(desk.project.state.getState().project.layup.map(({ id }) => id));
        return null;
      }
      if (key === "delete" || key === "backspace") return () => deleteChosen(desk);
      if (key === "escape") return leave;
      // No name in a list begins with it.
      if (key === "?") return latest.current.help;
      if (inList) return null;
      if (key in toolKeys) return () => session.setState({ tool: toolKeys[key] });
      if (key === "a") return latest.current.layUpAll;
      if (key === "m") return () => mirrorChosen(desk);
      if (key === "h") return () => turn("hidden");
      if (key === "l") return () => turn("locked");
      if (key === "enter" && target === document.body) return latest.current.byName;
      return null;
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [desk]);
}

/** Puts the tool down; with none in hand, lets go of what is chosen. */
function leave(): void {
  session.setState(({ tool, selected }) =>
    tool ? { tool: null } : { tool, selected: selected.slice(0, 0) },
  );
}
