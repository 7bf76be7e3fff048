/** What of a drawing is seen: the point at the upper left of the paper, mm, and pixels a millimetre. */
export interface Window {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

/** Size of a drawing: its box, mm. */
export interface Extent {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export interface Paper {
  readonly width: number;
  readonly height: number;
}

/** Room left at the sides of a drawing that is seen whole, pixels. */
const ROOM = 18;
/** The nearest that one can look, pixels a millimetre. */
const NEAREST = 4;

/** The whole drawing, as large as it goes, in the middle of the paper. */
export function wholeOf({ x0, y0, x1, y1 }: Extent, { width, height }: Paper): Window {
  const across = Math.max(1, width - 2 * ROOM) / Math.max(1, x1 - x0);
  const down = Math.max(1, height - ROOM / 2) / Math.max(1, y1 - y0);
  const scale = Math.min(across, down);
  return { scale, x: (x0 + x1) / 2 - width / 2 / scale, y: Math.min(y0, (y0 + y1) / 2 - height / 2 / scale) };
}

/** Nearer by a factor, with the point under `at` (pixels) kept where it is. */
export function zoomed(
  from: Window,
  factor: number,
  at: readonly [number, number],
  extent: Extent,
  paper: Paper,
): Window {
  const least = wholeOf(extent, paper).scale;
  const scale = Math.min(NEAREST, Math.max(least, from.scale * factor));
  return kept(
    { scale, x: from.x + at[0] / from.scale - at[0] / scale, y: from.y + at[1] / from.scale - at[1] / scale },
    extent,
    paper,
  );
}

/** Moved by so many pixels. */
export const panned = (from: Window, dx: number, dy: number, extent: Extent, paper: Paper): Window =>
  kept({ ...from, x: from.x - dx / from.scale, y: from.y - dy / from.scale }, extent, paper);

/** Moved by as little as brings a point into sight. */
export function showing(from: Window, x: number, y: number, extent: Extent, paper: Paper): Window {
  const room = 40 / from.scale;
  const [wide, high] = [paper.width / from.scale, paper.height / from.scale];
  const bring = (low: number, size: number, at: number) =>
    at < low + room ? at - room : at > low + size - room ? at - size + room : low;
  return kept({ ...from, x: bring(from.x, wide, x), y: bring(from.y, high, y) }, extent, paper);
}

/** Keeps the drawing on the paper: what fits stays in the middle, what does not is not pulled further than its edge. */
function kept(window: Window, { x0, y0, x1, y1 }: Extent, { width, height }: Paper): Window {
  const { scale } = window;
  const hold = (at: number, low: number, high: number, size: number, room: number) => {
    const seen = size / scale;
    const span = high - low + (2 * room) / scale;
    if (span <= seen) return (low + high) / 2 - seen / 2;
    return Math.min(high + room / scale - seen, Math.max(low - room / scale, at));
  };
  const y = hold(window.y, y0, y1, height, ROOM / 4);
  return {
    scale,
    x: hold(window.x, x0, x1, width, ROOM),
    y: y < y0 && y1 - y0 <= height / scale ? Math.min(y, y0) : y,
  };
}
