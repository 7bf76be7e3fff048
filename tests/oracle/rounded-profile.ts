import type { Chain, Segment } from "../../core/plan/chain.ts";
import { makeChain } from "../../core/plan/make-chain.ts";
import { arc, line } from "../../core/plan/segments.ts";

/** A corner of a profile: distance along the pool, depth below the rim, and the radius that rounds it (0 at an end). */
export interface ProfileCorner {
  readonly at: number;
  readonly depth: number;
  readonly radius: number;
}

/** A polyline in (x, z) with its corners rounded: tangent lengths r·tan(turn/2). Worked out here, apart from the kernel's. */
export function roundedProfile(corners: readonly ProfileCorner[]): Chain {
  const segments: Segment[] = [];
  let x = corners[0].at;
  let z = -corners[0].depth;
  for (let i = 1; i < corners.length; i++) {
    const px = corners[i].at;
    const pz = -corners[i].depth;
    const next = corners[i + 1];
    if (!next || corners[i].radius === 0) {
      segments.push(line(x, z, px, pz));
      [x, z] = [px, pz];
      continue;
    }
    const into = Math.atan2(pz - z, px - x);
    const out = Math.atan2(-next.depth - pz, next.at - px);
    const turn = out - into;
    const { radius } = corners[i];
    const tangent = radius * Math.tan(Math.abs(turn) / 2);
    const ax = px - tangent * Math.cos(into);
    const az = pz - tangent * Math.sin(into);
    segments.push(line(x, z, ax, az));
    const side = Math.sign(turn);
    segments.push(
      arc(
        ax - side * radius * Math.sin(into),
        az + side * radius * Math.cos(into),
        radius,
        into - (side * Math.PI) / 2,
        turn,
      ),
    );
    x = px + tangent * Math.cos(out);
    z = pz + tangent * Math.sin(out);
  }
  return makeChain(segments, false);
}
