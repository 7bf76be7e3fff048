import type { Project, ZoneSpec } from "../../../../core/project/schema.ts";

/** What was settled of a lay-up that is carried to another size: a zone with a figure changed, or left out. */
export interface Settled {
  readonly id: string;
  /** Null: left out. */
  readonly zone: ZoneSpec | null;
  /** What was done, in words. */
  readonly how: string;
}

/** A project with what was settled of its zones; what is settled twice is as it was settled last. */
export function withSettled(project: Project, settled: readonly Settled[]): Project {
  const last = new Map(settled.map((each) => [each.id, each.zone]));
  return {
    ...project,
    layup: project.layup.flatMap((zone) => {
      const after = last.get(zone.id);
      return after === null ? [] : [after ?? zone];
    }),
  };
}
