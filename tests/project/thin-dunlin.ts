import type { Project } from "../../core/project/schema.ts";
import { demoProject } from "./demo-files.ts";

/** Dunlin 4 with one ply on the foot of its wall: that of the second takes longer to cut than all its other cloth. */
export function thinDunlin(): Project {
  const demo = demoProject("dunlin-4");
  const layup = demo.layup.map((zone) =>
    zone.kind === "band" && zone.id === "foot" ? { ...zone, plies: 1 } : zone,
  );
  return { ...demo, layup };
}
