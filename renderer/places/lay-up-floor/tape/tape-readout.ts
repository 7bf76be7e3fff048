import { session } from "../../../document/session.ts";
import { findAt, fromMark, nameOf, placeInWords } from "./reading.ts";
import type { TapeBoard } from "./tape-board.ts";

/** Room that the readout takes beside the pointer, pixels. */
const WIDE = 240;
const HIGH = 76;
const REACH_PX = 7;

/** Says beside the pointer, and to readers, where on the plug one points and to what. Gives back how to leave. */
export function followReadout(tape: TapeBoard, box: HTMLOutputElement): () => void {
  const [name, place, mark] = ["strong", "span", "span"].map((tag) =>
    box.appendChild(document.createElement(tag)),
  );
  const put = () => {
    const { board, point, canvas } = tape;
    box.hidden = !board || !point;
    if (!board || !point) return;
    const { lengths } = session.getState();
    write(name, nameOf(findAt(board, point, REACH_PX * tape.grain)));
    write(place, placeInWords(point, board.face !== null, lengths));
    write(mark, board.face ? "" : fromMark(board, point, lengths));
    const [x, y] = tape.placeOf(point);
    const left = x + WIDE > canvas.clientWidth ? x - WIDE - 10 : x + 14;
    const top = y + HIGH > canvas.clientHeight ? y - HIGH - 6 : y + 12;
    box.style.transform = `translate(${Math.max(0, left)}px, ${Math.max(0, top)}px)`;
  };
  const leave = tape.onDrawn(put);
  return () => {
    leave();
    box.replaceChildren();
  };
}

function write(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}
