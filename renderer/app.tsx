import { useCallback, useEffect, useState } from "react";
import type { Project } from "../core/project/schema.ts";
import { type Desk, DeskContext, openDesk } from "./desk.ts";
import { Frame } from "./frame/frame.tsx";
import { Start } from "./places/start/start.tsx";

/** The window: the start page until a project is open, then the factory. */
export function App() {
  const [desk, setDesk] = useState<Desk | null>(null);
  const open = useCallback((project: Project) => setDesk(openDesk(project)), []);
  useEffect(() => () => desk?.close(), [desk]);
  if (!desk) return <Start onOpen={open} />;
  return (
    <DeskContext value={desk}>
      <Frame />
    </DeskContext>
  );
}
