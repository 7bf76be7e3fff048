import { useMemo } from "react";
import { Color } from "three";
import { useSession } from "../desk.ts";
import { readRoles } from "../look/roles.ts";
import { themeOf } from "../look/theme.ts";

const roles = [
  "paper",
  "paper-deep",
  "sheet",
  "ink",
  "soft",
  "line",
  "amber",
  "sea",
  "red",
  "gel-lit",
  "gel-shade",
  "glass-lit",
  "glass-shade",
  "straw",
  "straw-ink",
  "moss",
  "moss-ink",
  "clay",
  "clay-ink",
  "plum",
  "plum-ink",
] as const;

/** The colours of the theme, as the graphics card takes them. tokens.css is their one source. */
export type Palette = Readonly<Record<(typeof roles)[number], Color>>;

export function usePalette(): Palette {
  const theme = useSession(themeOf);
  return useMemo(() => readPalette(theme), [theme]);
}

/** Reads the colours that tokens.css gives a theme. */
function readPalette(theme: string): Palette {
  const probe = document.createElement("div");
  document.documentElement.dataset.theme = theme;
  document.body.append(probe);
  const colours = readRoles(probe, roles);
  probe.remove();
  return Object.fromEntries(roles.map((role) => [role, new Color(colours[role])])) as Palette;
}
