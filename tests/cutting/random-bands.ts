import { automaticLayup } from "../../core/layup/house-rules.ts";
import type { LaidBand } from "../../core/layup/laid.ts";
import { layUp, transitionsOf } from "../../core/layup/lay-up.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import type { ShopSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { randomShell } from "../shell/random-shell.ts";

/** The bands that the house rules lay on a random shell, all or those of one zone; null where the shell is refused. */
export function randomBands(seed: number, zone?: string): { shop: ShopSpec; bands: LaidBand[] } | null {
  const built = buildShell(randomShell(seed));
  if (!built.ok) return null;
  const bare = { ...defaultProject(), shell: built.shell.spec };
  const transitions = transitionsOf(bare, built.shell);
  const layup = automaticLayup(bare, built.shell, transitions).filter(({ id }) => !zone || id === zone);
  const { zones } = layUp({ ...bare, layup }, built.shell, { transitions });
  return { shop: bare.shop, bands: zones.filter((each): each is LaidBand => "strip" in each) };
}
