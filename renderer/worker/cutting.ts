import { cutInSteps, cutKit } from "../../core/cutting/cut-kit.ts";
import type { Kit } from "../../core/cutting/kit.ts";
import type { LaidBand, LaidZone, Layup } from "../../core/layup/laid.ts";
import type { Project } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Field } from "../../core/surface/field.ts";
import { movedField } from "../../core/surface/moved.ts";
import { type Breath, inSteps } from "./breath.ts";
import { remember } from "./remember.ts";

/** A band as it goes from worker to worker: without the field that it lies on, which is made of functions. */
type Sent<Zone> = Zone extends LaidBand
  ? Omit<Zone, "strip"> & { readonly strip: Omit<LaidBand["strip"], "field"> }
  : Zone;
export type SentZone = Sent<LaidZone>;

/** What a kit is cut of: a lay-up in which only the zones that are new come in full. */
export interface CutOrder {
  readonly project: Project;
  readonly shells: number;
  /** Zones in their order, each by a key of its own; null for one that came with the order before. */
  readonly zones: readonly { readonly key: number; readonly zone: SentZone | null }[];
}

/** Cuts kits in a worker of its own: a band's cloth is cut in one go, and must not keep a drag waiting. */
export interface Cutting {
  /** The kit, or null where another was ordered or none is wanted any more before it was done. */
  cut(order: CutOrder): Promise<Kit | null>;
  leaveOff(): void;
}

/** Cuts a kit with pauses between its bands; null if it is to stop before it is done. */
export async function cutPausing(
  project: Project,
  layup: Layup,
  shells: number,
  breath: Breath,
  stopped: () => boolean,
): Promise<Kit | null> {
  if ((await inSteps(cutInSteps(project, layup), breath, stopped)) === null) return null;
  return cutKit(project, layup, shells);
}

export function makeCutting(breath: Breath): Cutting {
  const fields = remember<Field>();
  let known = new Map<number, LaidZone>();
  let newest = 0;
  return {
    async cut({ project, shells, zones }) {
      const own = ++newest;
      const before = known;
      known = new Map(
        zones.map(({ key, zone }) => {
          const laid = zone ? onField(zone, () => layupField(project, fields)) : before.get(key);
          if (!laid) throw new Error(`Zone ${key} was never sent to be cut.`);
          return [key, laid];
        }),
      );
      const layup = { zones: [...known.values()], adrift: [] };
      return cutPausing(project, layup, shells, breath, () => own !== newest);
    },
    leaveOff() {
      newest++;
    },
  };
}

/** The surface that a project is laid up on, as the zero set of a field. */
function layupField({ shell: spec, shop }: Project, fields: ReturnType<typeof remember<Field>>): Field {
  return fields(JSON.stringify([spec, shop.laidThickness]), () => {
    const built = buildShell(spec, shop.laidThickness);
    if (!built.ok) throw new Error("A shell that was laid up cannot be built.");
    return movedField(built.shell.field, shop.laidThickness);
  });
}

function onField(zone: SentZone, field: () => Field): LaidZone {
  return "strip" in zone ? { ...zone, strip: { ...zone.strip, field: field() } } : zone;
}
