import type { Session } from "../document/session.ts";
import { reinforcementOf } from "../parts/reinforcement.ts";
import type { LaidZoneView } from "../worker/results.ts";

/** What of the shell is seen where one stands. The showroom has its own, simpler way of seeing: nothing of the drawing board. */

export const inShowroom = ({ place }: Session): boolean => place === "showroom";

/** In the showroom the shell turns to glass when one looks into it for the reinforcement behind it. */
export const seenThrough = (s: Session): boolean =>
  inShowroom(s) ? s.side === "inside" && s.shown.size > 0 : s.seeThrough;

export const seenSection = (s: Session): Session["section"] => (inShowroom(s) ? null : s.section);
export const seenDimensions = (s: Session): boolean => s.dimensions && !inShowroom(s);
export const seenGrid = (s: Session): boolean => s.grid && !inShowroom(s);

/** The zones that are drawn. */
export function seenZones(
  zones: readonly LaidZoneView[],
  showroom: boolean,
  { hidden, shown }: Pick<Session, "hidden" | "shown">,
): readonly LaidZoneView[] {
  if (showroom) return zones.filter(({ kind }) => shown.has(reinforcementOf[kind]));
  return hidden.size === 0 ? zones : zones.filter(({ id }) => !hidden.has(id));
}
