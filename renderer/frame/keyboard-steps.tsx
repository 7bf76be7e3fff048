import { useEffect } from "react";
import { useDesk } from "../desk.ts";

/** Undo and redo by the keyboard, wherever one is; in a text being typed the field's own undo goes first. */
export function KeyboardSteps() {
  const { project } = useDesk();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.defaultPrevented) return;
      if (event.target instanceof HTMLInputElement && event.target.dataset.typing !== undefined) return;
      const key = event.key.toLowerCase();
      if (key === "z" && !event.shiftKey) project.undo();
      else if ((key === "z" && event.shiftKey) || key === "y") project.redo();
      else return;
      event.preventDefault();
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [project]);
  return null;
}
