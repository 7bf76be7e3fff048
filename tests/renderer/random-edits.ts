import fc from "fast-check";
import { buildOutline } from "../../core/plan/build-outline.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { setting } from "../../renderer/document/figure-path.ts";
import type { Recipe } from "../../renderer/document/history.ts";
import { featureHandles } from "../../renderer/places/drawing-office/sheets/feature-handles.ts";
import { fittingHandles } from "../../renderer/places/drawing-office/sheets/fitting-handles.ts";
import { onward } from "../../renderer/places/drawing-office/sheets/handle.ts";
import { outlineHandles } from "../../renderer/places/drawing-office/sheets/outline-handles.ts";
import {
  featureKinds,
  fittingKinds,
  offersInTurn,
  putting,
} from "../../renderer/places/drawing-office/sheets/placing.ts";
import { copiedTo } from "../../renderer/tools/copy-to.ts";
import { planLayUp, taking } from "../../renderer/tools/lay-up-all.ts";
import {
  duplicates,
  laying,
  named,
  removing,
  replacing,
  settingOf,
} from "../../renderer/tools/zone-edits.ts";
import { figuresOf } from "../../renderer/tools/zone-figures.ts";

/** What a person may do, as data: a change of the document, a drag that is kept or dropped, a step back or forward. */
export type Act =
  | { readonly kind: "edit"; readonly change: Change }
  | { readonly kind: "drag"; readonly changes: readonly Change[]; readonly kept: boolean }
  | { readonly kind: "undo" }
  | { readonly kind: "redo" };

/** What changes, which of several it is meant for, and by how much. */
export interface Change {
  readonly what: keyof typeof recipes;
  readonly pick: number;
  readonly by: number;
}

type Picked = Omit<Change, "what">;

const pickOf = <T>(all: readonly T[], pick: number): T | undefined => all[pick % Math.max(1, all.length)];
const nothing: Recipe = () => {};

/** The window's own recipes, each made of the project as it stands. Some leave the limits or break a reference: nothing may change then. */
const recipes = {
  figure(project: Project, { pick, by }: Picked): Recipe {
    const found = pickOf(numbersIn(project), pick);
    return found
      ? setting(found.path, by % 3 === 0 ? found.value * (1 + by / 1800) : found.value + by)
      : nothing;
  },
  handle({ shell }: Project, { pick, by }: Picked): Recipe {
    const built = buildOutline(shell.outline);
    if (!built.ok) return nothing;
    const handle = pickOf(
      [
        ...outlineHandles(shell),
        ...shell.features.flatMap((_, i) => featureHandles(shell, built.outline, i)),
        ...fittingHandles(shell, built.outline),
      ],
      pick,
    );
    return handle ? handle.to(onward(handle.at, handle.along ?? { x: 0.8, y: 0.6 }, by), 10) : nothing;
  },
  part({ shell }: Project, { pick, by }: Picked): Recipe {
    const built = buildOutline(shell.outline);
    const kind = pickOf([...featureKinds, ...fittingKinds], pick);
    if (!built.ok || !kind || shell.features.length > 5) return nothing;
    const offer = pickOf(offersInTurn(shell, built.outline, kind), Math.abs(by));
    return offer ? putting(offer) : nothing;
  },
  "take a part out": (_: Project, { pick }: Picked): Recipe => {
    // The draft's own array method gives back what it took out, as the card's recipe does.
    return ({ shell: { features } }) => features.splice(pick % Math.max(1, features.length), 1);
  },
  name: (_: Project, { pick }: Picked): Recipe => {
    return (draft) => {
      draft.name = `Pool ${pick}`;
    };
  },
  "delete zones": ({ layup }: Project, { pick, by }: Picked): Recipe =>
    removing(layup.filter((_, i) => i % 7 === pick % 7 && i % 2 === Math.abs(by) % 2).map(({ id }) => id)),
  "duplicate a zone"(project: Project, { pick }: Picked): Recipe {
    const zone = pickOf(project.layup, pick);
    return zone && project.layup.length < 45 ? laying(duplicates(project, [zone.id])) : nothing;
  },
  "copy a zone"(project: Project, { pick, by }: Picked): Recipe {
    const zone = pickOf(project.layup, pick);
    const place = pickOf(["foot", "left", "steps/tread-1", "right", "bench/top"], Math.abs(by));
    return zone && place && project.layup.length < 45
      ? laying(named(project, [copiedTo(zone, place)]))
      : nothing;
  },
  "figure of a kind"({ layup }: Project, { pick, by }: Picked): Recipe {
    const zones = layup.filter(({ kind }) => kind === pickOf(layup, pick)?.kind);
    const figure = pickOf(figuresOf(zones), pick);
    const to = figure && figure.value + by / 10;
    return figure
      ? settingOf(
          zones.map(({ id }) => id),
          figure.path,
          to,
        )
      : nothing;
  },
  "replace a zone"({ layup }: Project, { pick, by }: Picked): Recipe {
    const zone = pickOf(layup, pick);
    return zone?.kind === "band" ? replacing({ ...zone, halfWidths: [200, 300 + by / 10] }) : nothing;
  },
  "lay up all"({ layup }: Project, { pick, by }: Picked): Recipe {
    const wanted = layup
      .filter((_, i) => i % 3 !== pick % 3)
      .map((zone): ZoneSpec => ({ ...zone, id: `${zone.id}-x` }));
    return taking(planLayUp(layup.slice(0, 40), wanted, by < 0 ? "missing" : "anew"));
  },
} satisfies Record<string, (project: Project, picked: Picked) => Recipe>;

export const recipeOf = (project: Project, { what, ...picked }: Change): Recipe =>
  recipes[what](project, picked);

/** Every number of the shell, the shop and the rules, with its path. */
function numbersIn({ shell, shop, rules }: Project) {
  const found: { readonly path: readonly (string | number)[]; readonly value: number }[] = [];
  const walk = (value: unknown, path: readonly (string | number)[]) => {
    if (typeof value === "number") found.push({ path, value });
    else if (Array.isArray(value)) for (const [i, each] of value.entries()) walk(each, [...path, i]);
    else if (typeof value === "object" && value !== null)
      for (const [key, each] of Object.entries(value)) walk(each, [...path, key]);
  };
  walk(shell, ["shell"]);
  walk(shop, ["shop"]);
  walk(rules, ["rules"]);
  return found;
}

const change: fc.Arbitrary<Change> = fc.record({
  what: fc.constantFrom(...(Object.keys(recipes) as Change["what"][])),
  pick: fc.nat(400),
  by: fc.integer({ min: -900, max: 900 }),
});

export const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant("edit" as const), change }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant("drag" as const),
      changes: fc.array(change, { maxLength: 5 }),
      kept: fc.boolean(),
    }),
  },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant("undo" as const) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("redo" as const) }) },
);
