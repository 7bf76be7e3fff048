import { cannotBeCut } from "../cutting/cannot-be-cut.ts";
import { cutKit, firstKit } from "../cutting/cut-kit.ts";
import type { Kit, KitDoubt } from "../cutting/kit.ts";
import { type MaterialPlan, type MaterialTask, planMaterial } from "../cutting/lots/plan-material.ts";
import { type Laid, layProject, type Refused, selfCheck } from "../cutting/make-kit.ts";
import type { AdriftZone } from "../layup/laid.ts";
import type { Project } from "../project/schema.ts";
import { doubtsOf } from "../sheets/kit-report.ts";
import { planCourse } from "./plan-course.ts";

/** What is cut for one shell of a project, and what there is to say of it. */
export interface CutProject {
  readonly kit: Kit;
  /** What of its cloth cannot be cut as it is listed; whether it fits a roll is the lot's to say. */
  readonly uncut: readonly KitDoubt[];
  readonly adrift: readonly Pick<AdriftZone, "id" | "why">[];
  readonly doubts: ReturnType<typeof doubtsOf>;
}

export type Workshop = ReturnType<typeof openWorkshop>;

/**
 * Where the long work of a lot is done, step by step: a project is laid up first, then cut for and checked under the number that it was given.
 * Steps take and give plain data only, so that a workshop may stand in a thread of its own. `onStage` hears what begins.
 */
export function openWorkshop(onStage: (stage: string) => void) {
  const projects = new Map<number, { readonly project: Project; readonly laid: Laid }>();
  const laidUp = (number: number) => {
    const found = projects.get(number);
    if (!found) throw new Error(`project ${number} of the lot was not laid up here`);
    return found;
  };
  return {
    /** Lays up a project; gives its kit for one shell with each piece still a rectangle, or why it cannot be built. */
    lay(number: number, project: Project): Refused | { readonly ok: true; readonly first: Kit } {
      const laid = layProject(project, (stage) => onStage(`${project.name}: ${stage}`));
      if (!laid.ok) return laid;
      projects.set(number, { project, laid });
      return { ok: true, first: firstKit(project, laid.layup, 1) };
    },
    /** Lays and cuts the cloth of a project, and all else of one shell. */
    cut(number: number): CutProject {
      const { project, laid } = laidUp(number);
      onStage(`${project.name}: cutting cloth`);
      const kit = cutKit(project, laid.layup, 1);
      const adrift = laid.layup.adrift.map(({ id, why }) => ({ id, why }));
      return { kit, uncut: cannotBeCut(kit, new Map()), adrift, doubts: doubtsOf(laid.layup, kit) };
    },
    /** What the self-check finds wrong with a project's surface, in words. */
    check(number: number): readonly string[] {
      const { project, laid } = laidUp(number);
      onStage(`${project.name}: checking the surface`);
      return selfCheck(laid);
    },
    /** Plans a material, for `seconds` or, where they are undefined, for the usual number of steps. */
    plan(task: MaterialTask, seconds: number | undefined): MaterialPlan {
      return planMaterial(task, planCourse(seconds, onStage));
    },
  };
}
