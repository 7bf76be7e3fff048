import { useRef } from "react";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { type Drawn, drawShell } from "./drawn-shell.ts";

/** The shell as drawn; while it cannot be, as it last could. */
export function useLastGood(shell: ShellSpec): Drawn | null {
  const good = useRef<Drawn | null>(null);
  good.current = drawShell(shell) ?? good.current;
  return good.current;
}
