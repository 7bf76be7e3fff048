import type { Chain } from "../../../../core/plan/chain.ts";
import { segmentEnd, segmentStart } from "../../../../core/plan/segments.ts";
import { signedArea } from "../../../../core/plan/signed-area.ts";

/** Far outside any sheet, mm. */
const FAR = 60_000;
const n = (value: number) => String(Math.round(value * 100) / 100);

/** A chain as the data of an SVG path, in its own millimetres with y upwards. */
export function chainPath(chain: Chain): string {
  const first = segmentStart(chain.segments[0]);
  const parts = [`M${n(first.x)} ${n(first.y)}`];
  for (const segment of chain.segments) {
    const end = segmentEnd(segment);
    if (segment.kind === "line") {
      parts.push(`L${n(end.x)} ${n(end.y)}`);
      continue;
    }
    const sweep = segment.sweep > 0 ? 1 : 0;
    // An arc of more than a half turn goes in two, so that a whole circle is drawn too.
    const halves = Math.abs(segment.sweep) > Math.PI ? 2 : 1;
    for (let i = 1; i <= halves; i++) {
      const angle = segment.start + (segment.sweep * i) / halves;
      const x = segment.cx + segment.radius * Math.cos(angle);
      const y = segment.cy + segment.radius * Math.sin(angle);
      parts.push(`A${n(segment.radius)} ${n(segment.radius)} 0 0 ${sweep} ${n(x)} ${n(y)}`);
    }
  }
  return chain.closed ? `${parts.join("")}Z` : parts.join("");
}

/** The ground on the left of a chain, as the data of an SVG path to be filled by the even-odd rule. */
export function leftOfPath(chain: Chain): string {
  const own = chainPath(chain);
  if (chain.closed) return signedArea(chain) > 0 ? own : `M${-FAR} ${-FAR}H${FAR}V${FAR}H${-FAR}Z${own}`;
  const a = segmentStart(chain.segments[0]);
  const b = segmentEnd(chain.segments[chain.segments.length - 1]);
  return `${own}L${n(b.x - FAR * b.ty)} ${n(b.y + FAR * b.tx)}L${n(a.x - FAR * a.ty)} ${n(a.y + FAR * a.tx)}Z`;
}
