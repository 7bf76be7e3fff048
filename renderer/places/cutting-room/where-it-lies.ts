import type { Piece, SheetPiece, StripMark, StripPiece } from "../../../core/cutting/kit.ts";
import { type LengthStyle, printLength } from "../../../core/units/length.ts";
import { faceName } from "../../parts/names.ts";
import { words } from "../../words.ts";

const { lies } = words.cutting;

/** Every place of a piece of cloth along its band, and where the band begins. */
export function pieceLies({ places, begins }: Piece, lengths: LengthStyle): string {
  const along = places.map(({ fromMm, toMm, hand }) =>
    lies.stretch(whole(fromMm, lengths), whole(toMm, lengths), hand === "turned over"),
  );
  return [...along, ...(begins ? [lies.begins(onTape(begins, lengths))] : [])].join("; ");
}

/** Where both ends of a strip lie; of one that stands upright its place once, with how far down it begins and ends. */
export function stripLies({ tape: [first, last] }: StripPiece, lengths: LengthStyle): string {
  if (first.downMm !== null && last.downMm !== null && alongOf(first, lengths) === alongOf(last, lengths)) {
    return lies.upright(alongOf(first, lengths), whole(first.downMm, lengths), whole(last.downMm, lengths));
  }
  return lies.ends(onTape(first, lengths), onTape(last, lengths));
}

/** Where each of alike sheets lies, by the number of its own name. */
export function sheetLies({ places = [] }: SheetPiece, lengths: LengthStyle): string {
  return places
    .map((place) => {
      const where = onTape(place, lengths);
      return places.length === 1
        ? where
        : lies.each(place.name.slice(place.name.lastIndexOf("/") + 1), where);
    })
    .join("; ");
}

/** Lists say whole millimetres: finer than a tape is read. */
const whole = (mm: number, lengths: LengthStyle) => printLength(Math.round(mm), lengths);

function alongOf({ from, alongMm }: StripMark, lengths: LengthStyle): string {
  const mark = faceName(from);
  if (alongMm === null || Math.round(alongMm) === 0) return lies.at(mark);
  const distance = whole(Math.abs(alongMm), lengths);
  return alongMm > 0 ? words.tape.past(distance, mark) : words.tape.before(distance, mark);
}

function onTape(mark: StripMark, lengths: LengthStyle): string {
  const along = alongOf(mark, lengths);
  return mark.downMm === null ? along : lies.down(along, whole(mark.downMm, lengths));
}
