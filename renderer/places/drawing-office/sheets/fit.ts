import type { Handle, Spot } from "./handle.ts";

/** How a sheet's millimetres lie on the screen: y upwards on the sheet, downwards on the screen. */
export interface Fit {
  /** Pixels a millimetre. */
  readonly scale: number;
  /** Pixel of the sheet's (0, 0). */
  readonly left: number;
  readonly top: number;
}

export interface Box {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Fits a box of a sheet (mm) into an area of so many pixels, in its middle, with margins for what stands beside it. */
export function fitInto(box: Box, width: number, height: number, margins: Margins): Fit {
  const across = Math.max(20, width - margins.left - margins.right);
  const down = Math.max(20, height - margins.top - margins.bottom);
  const scale = Math.min(across / (box.maxX - box.minX || 1), down / (box.maxY - box.minY || 1));
  return {
    scale,
    left: margins.left + across / 2 - (scale * (box.minX + box.maxX)) / 2,
    top: margins.top + down / 2 + (scale * (box.minY + box.maxY)) / 2,
  };
}

export const toScreen = ({ scale, left, top }: Fit, { x, y }: Spot): Spot => ({
  x: left + scale * x,
  y: top - scale * y,
});

/** The pixel where a handle's mark stands. */
export function markAt(fit: Fit, { at, along, aside = 0 }: Handle): Spot {
  const { x, y } = toScreen(fit, at);
  return along ? { x: x + aside * along.x, y: y - aside * along.y } : { x, y };
}

export const toSheet = ({ scale, left, top }: Fit, { x, y }: Spot): Spot => ({
  x: (x - left) / scale,
  y: (top - y) / scale,
});
