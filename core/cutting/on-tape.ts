import type { LaidBand, LaidGussets, LaidPad } from "../layup/laid.ts";
import type { Piece, StripMark } from "./kit.ts";

/** Stations this little past the end of a closed band are its end, mm. */
const ROUNDING = 1e-6;

/** A band's piece as a layer-up finds its places: with where the band begins, and round a closed one no station past its length. */
export function onTape({ strip, lengthMm, tape }: LaidBand, piece: Piece): Piece {
  const within = (at: number) => (strip.closed && at > lengthMm + ROUNDING ? at - lengthMm : at);
  const found = <T extends Pick<Piece, "fromMm" | "toMm">>(each: T): T => ({
    ...each,
    fromMm: within(each.fromMm),
    toMm: within(each.toMm),
  });
  const start = tape.find(({ what }) => what === "start");
  return { ...found(piece), places: piece.places.map(found), ...(start && { begins: readingOf(start) }) };
}

/** What a tape reads at the n-th gusset, or at the n-th patch of a pad. */
export const readingAt = ({ tape }: LaidGussets | LaidPad, n: number): StripMark | null =>
  n < tape.length ? readingOf(tape[n]) : null;

const readingOf = ({ from, alongMm, downMm }: StripMark): StripMark => ({ from, alongMm, downMm });
