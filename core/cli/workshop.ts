import { cutKit } from "../cutting/cut-kit.ts";
import { firstKit } from "../cutting/first-kit.ts";
import type { Kit, KitDoubt } from "../cutting/kit.ts";
import { type MaterialPlan, type MaterialTask, planMaterial } from "../cutting/lots/plan-material.ts";
import type { Watch } from "../cutting/lots/watch.ts";
import { type Ground, layGround, openGround, type Refused, selfCheck } from "../cutting/make-kit.ts";
import type { AdriftZone } from "../layup/laid.ts";
import type { Project } from "../project/schema.ts";
import { doubtsOf } from "../sheets/kit-report.ts";
import type { Adjustment } from "../shell/shell.ts";
import { planCourse } from "./plan-course.ts";

/** What is cut for one shell of a project, and what there is to say of it. */
export interface CutProject {
  readonly kit: Kit;
  /** What of its cloth cannot be cut as it is listed; whether it fits a roll is the lot's to say. */
  readonly uncut: readonly KitDoubt[];
  readonly adrift: readonly Pick<AdriftZone, "id" | "why">[];
  /** What had to be adjusted on its shell. */
  readonly adjustments: readonly Adjustment[];
  readonly doubts: readonly KitDoubt[];
}

export type Workshop = ReturnType<typeof openWorkshop>;

/**
 * Where the long work of a lot is done, step by step: a project is begun first, then cut and checked under the number that it was given.
 * Steps take and give plain data only, so that a workshop may stand in a thread of its own.
 */
export function openWorkshop(watch: Watch) {
  const { onStage, onPart } = watch;
  const grounds = new Map<number, Ground>();
  const groundOf = (number: number) => {
    const found = grounds.get(number);
    if (!found) throw new Error(`project ${number} of the lot was not begun here`);
    return found;
  };
  return {
    /** Builds a project's shell; gives its kit for one shell with each piece still a rectangle, or why it cannot be built. */
    begin(number: number, project: Project): Refused | { readonly ok: true; readonly first: Kit } {
      const ground = openGround(project, (stage) => onStage(`${project.name}: ${stage}`));
      if (!ground.ok) return ground;
      grounds.set(number, ground);
      return { ok: true, first: firstKit(ground) };
    },
    /** Lays up a project, and cuts all of one shell. */
    cut(number: number): CutProject {
      const ground = groundOf(number);
      const { project, shell } = ground;
      onStage(`${project.name}: laying up`);
      const { layup } = layGround(ground, (part) => onPart(`${project.name}: ${part}`));
      onStage(`${project.name}: cutting cloth`);
      const kit = cutKit(project, layup, 1, (part) => onPart(`${project.name}: ${part}`));
      const adrift = layup.adrift.map(({ id, why }) => ({ id, why }));
      const all = doubtsOf(layup, kit);
      const isUncut = ({ fault }: KitDoubt) => fault === "cannot be cut";
      return {
        kit,
        adrift,
        adjustments: shell.adjustments,
        uncut: all.filter(isUncut),
        doubts: all.filter((each) => !isUncut(each)),
      };
    },
    /** What the self-check finds wrong with a project's surface, in words. */
    check(number: number): readonly string[] {
      const ground = groundOf(number);
      onStage(`${ground.project.name}: checking the surface`);
      return selfCheck(ground);
    },
    /** Plans a material, for `seconds` or, where they are undefined, for the usual number of steps. */
    plan(task: MaterialTask, seconds: number | undefined): MaterialPlan {
      return planMaterial(task, planCourse(seconds, watch));
    },
  };
}
