import { session } from "../../../document/session.ts";
import { findAt, fromMark, nameOf, placeInWords } from "./reading.ts";
import type { TapeBoard } from "./tape-board.ts";

const REACH_PX = 7;

/**
 * Says beside the pointer, and to readers, where on the plug one points and to what: `box` goes along with the pointer, the words
 * are written into `lines`. Gives back how to leave.
 */
export function followReadout(tape: TapeBoard, box: HTMLElement, lines: HTMLElement): () => void {
  const [name, place, mark] = ["strong", "span", "span"].map((tag) =>
    lines.appendChild(document.createElement(tag)),
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
    const { offsetWidth: wide, offsetHeight: high } = box;
    const left = x + wide + 14 > canvas.clientWidth ? x - wide - 10 : x + 14;
    const top = y + high + 12 > canvas.clientHeight ? y - high - 6 : y + 12;
    box.style.transform = `translate(${Math.max(0, left)}px, ${Math.max(0, top)}px)`;
  };
  const leave = tape.onDrawn(put);
  return () => {
    leave();
    lines.replaceChildren();
  };
}

function write(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}
