import type { Chain, Outline, Run } from "./chain.ts";
import { chainBounds } from "./chain-bounds.ts";
import { JOINT_GAP, makeChain, moveChain, reverseChain } from "./make-chain.ts";
import { cutSegment, TURN } from "./segments.ts";
import { signedArea } from "./signed-area.ts";

/** An outline brought into the shell's plan, and how far it was moved: plan point = drawn point + `moved`. */
export interface Assembled {
  readonly outline: Outline;
  readonly moved: { readonly x: number; readonly y: number };
}

/**
 * Brings a closed chain into the shell's plan: counter-clockwise, x from 0 to its length, y centred on 0, and begun at
 * rim station 0. `names[i]` is the run that segment i belongs to; neighbours of one name make one run.
 */
export function assembleOutline(drawn: Chain, drawnNames: readonly string[]): Assembled {
  const clockwise = signedArea(drawn) < 0;
  const forward = clockwise ? reverseChain(drawn) : drawn;
  const forwardNames = clockwise ? [...drawnNames].reverse() : drawnNames;
  const box = chainBounds(forward);
  const moved = { x: -box.minX, y: -(box.minY + box.maxY) / 2 };
  const { chain, names } = startAt(moveChain(forward, moved.x, moved.y), forwardNames);
  const extent = { length: box.maxX - box.minX, width: box.maxY - box.minY };
  return { outline: { chain, runs: runsOf(chain, names), extent }, moved };
}

/** Splits the chain at rim station 0 and begins it there. */
function startAt(chain: Chain, names: readonly string[]): { chain: Chain; names: string[] } {
  const { segment, along } = rimStart(chain);
  const piece = chain.segments[segment];
  const turned = [...chain.segments.slice(segment), ...chain.segments.slice(0, segment)];
  const turnedNames = [...names.slice(segment), ...names.slice(0, segment)];
  if (along <= JOINT_GAP) return { chain: makeChain(turned, true), names: turnedNames };
  if (along >= piece.length - JOINT_GAP) {
    return {
      chain: makeChain([...turned.slice(1), piece], true),
      names: [...turnedNames.slice(1), turnedNames[0]],
    };
  }
  const segments = [cutSegment(piece, along, piece.length), ...turned.slice(1), cutSegment(piece, 0, along)];
  return { chain: makeChain(segments, true), names: [...turnedNames, turnedNames[0]] };
}

/** The point of the chain on the centre line y = 0 with the smallest x. */
function rimStart(chain: Chain): { segment: number; along: number } {
  let bestX = Infinity;
  let best = { segment: 0, along: 0 };
  const offer = (x: number, segment: number, along: number) => {
    if (x >= bestX) return;
    bestX = x;
    best = { segment, along };
  };
  chain.segments.forEach((segment, i) => {
    if (segment.kind === "line") {
      const { ax, ay, bx, by, length } = segment;
      if (Math.abs(ay) <= JOINT_GAP) offer(ax, i, 0);
      else if (Math.abs(by) <= JOINT_GAP) offer(bx, i, length);
      else if (ay * by < 0) offer(ax + ((bx - ax) * ay) / (ay - by), i, (length * ay) / (ay - by));
      return;
    }
    const { cx, cy, radius, start, sweep } = segment;
    // A circle that only touches the centre line may miss it by a rounding error.
    if (Math.abs(cy) > radius + JOINT_GAP) return;
    const rise = Math.asin(Math.min(1, Math.max(-1, -cy / radius)));
    for (const angle of [rise, Math.PI - rise]) {
      const ahead = Math.sign(sweep) * (angle - start);
      const turn = ahead - Math.floor(ahead / TURN) * TURN;
      const slack = JOINT_GAP / radius;
      const along = turn > TURN - slack ? 0 : turn;
      if (along <= Math.abs(sweep) + slack) offer(cx + radius * Math.cos(angle), i, along * radius);
    }
  });
  return best;
}

/** Neighbouring segments of one name become one run; the run that holds station 0 in its middle begins before it. */
function runsOf(chain: Chain, names: readonly string[]): Run[] {
  const runs: Run[] = [];
  const { segments, stations } = chain;
  for (let i = 0; i < segments.length; ) {
    let next = i + 1;
    while (next < segments.length && names[next] === names[i]) next++;
    const kind = segments.slice(i, next).every((segment) => segment.kind === "line") ? "straight" : "curved";
    runs.push({ id: names[i], kind, from: stations[i], length: stations[next] - stations[i] });
    i = next;
  }
  const last = runs[runs.length - 1];
  if (runs.length === 1 || runs[0].id !== last.id) return runs;
  const kind = runs[0].kind === "straight" && last.kind === "straight" ? "straight" : "curved";
  const wrapped: Run = { id: last.id, kind, from: last.from, length: last.length + runs[0].length };
  return [wrapped, ...runs.slice(1, -1)];
}
