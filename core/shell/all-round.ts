import type { Outline } from "../plan/chain.ts";
import { makeChain, reverseChain } from "../plan/make-chain.ts";
import { built, type FootprintAsk, type FootprintResult, noRoom } from "./footprint-ask.ts";
import { rounder, shiftSegments } from "./loop.ts";

/** A footprint along the whole rim: the pool is left free in the middle. */
export function allRound(outline: Outline, ask: FootprintAsk): FootprintResult {
  const chain = rounder(outline.chain, () => ask.reach + ask.reentrant);
  const inner = chain && shiftSegments(chain.segments, ask.reach);
  if (!inner) return noRoom(ask);
  return built(reverseChain(makeChain(inner, true)));
}
