import { toast } from "sonner";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import type { Desk } from "../../desk.ts";
import type { Recipe } from "../../document/history.ts";
import { selectedZones, session } from "../../document/session.ts";
import { zoneName } from "../../parts/names.ts";
import { mirrored } from "../../tools/mirror.ts";
import { outlineOf } from "../../tools/rim-places.ts";
import { duplicates, isLaid, laying, named, removing, zonesOf } from "../../tools/zone-edits.ts";
import { words } from "../../words.ts";

/** What is done with the chosen zones, by button or by key. Locked zones are left as they are, and it is said. */

/** "ribs left", or "3 zones". */
export const namesOf = (ids: readonly string[]): string =>
  ids.length === 1 ? zoneName(ids[0]) : words.floor.chosen(ids.length);

/** The chosen zones that may be changed. */
function changeable(): string[] {
  const state = session.getState();
  return selectedZones(state).filter((id) => !state.locked.has(id));
}

export function deleteChosen({ project }: Desk): void {
  const ids = changeable();
  tellLocked(ids.length);
  if (ids.length === 0) return;
  if (tried(project.edit(words.steps.delete(namesOf(ids)), removing(ids)))) choose([]);
}

export function duplicateChosen(desk: Desk): void {
  const ids = selectedZones(session.getState());
  const copies = duplicates(desk.project.state.getState().project, ids);
  layNew(desk, copies, words.steps.duplicate(namesOf(ids)));
}

/** Lays the chosen zones on the other side of the centre line as well; says where there is no such place. */
export function mirrorChosen(desk: Desk): void {
  const { project } = desk.project.state.getState();
  const outline = outlineOf(project.shell.outline);
  if (!outline) return;
  const { lines } = desk.results.getState();
  const chosen = zonesOf(project, selectedZones(session.getState()));
  const twins = chosen.flatMap((zone) => mirrored(zone, { outline, lines }) ?? []);
  const fresh = twins.filter((twin) => !isLaid(project.layup, twin));
  if (fresh.length < chosen.length) toast(words.floor.notMirrored(chosen.length - fresh.length));
  layNew(desk, named(project, fresh), words.steps.mirror(namesOf(chosen.map(({ id }) => id))));
}

/** Lays new zones as one step and chooses them. */
export function layNew({ project }: Desk, zones: readonly ZoneSpec[], step: string): boolean {
  if (zones.length === 0 || !tried(project.edit(step, laying(zones)))) return false;
  choose(zones.map(({ id }) => id));
  return true;
}

/** Makes one change of the chosen zones that may be changed. */
export function changeChosen({ project }: Desk, figure: string, recipe: (ids: string[]) => Recipe): void {
  const ids = changeable();
  tellLocked(ids.length);
  if (ids.length > 0) tried(project.edit(words.steps.change(`${figure} of ${namesOf(ids)}`), recipe(ids)));
}

export const choose = (ids: readonly string[]): void =>
  session.setState({ selected: ids.map((id) => ({ kind: "zone", id })) });

/** Hides or locks the chosen zones; if all of them are already, the other way round. */
export function turn(what: "hidden" | "locked"): void {
  session.setState((state) => {
    const ids = selectedZones(state);
    const set = new Set(state[what]);
    const all = ids.every((id) => set.has(id));
    for (const id of ids) {
      if (all) set.delete(id);
      else set.add(id);
    }
    return { [what]: set };
  });
}

function tellLocked(left: number): void {
  const kept = selectedZones(session.getState()).length - left;
  if (kept > 0) toast(words.floor.notKept(kept));
}

/** Whether an edit was taken; if not, it is said why. */
export function tried(edited: ReturnType<Desk["project"]["edit"]>): boolean {
  if (edited.ok) return true;
  toast.error(edited.problems.map(({ sentence }) => sentence).join("\n"));
  return false;
}
