import { z } from "zod";

/** Where the window stood when it was last closed, in the screen's own units. */
export const windowPlace = z.strictObject({
  x: z.number().int(),
  y: z.number().int(),
  width: z.number().int().min(1),
  height: z.number().int().min(1),
  maximised: z.boolean(),
});
export type WindowPlace = z.infer<typeof windowPlace>;

interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const smallest = { width: 900, height: 600 };
const usual = { width: 1440, height: 900 };
/** As much of the title bar must be in reach that the window can be dragged by it. */
const grip = { width: 200, height: 40 };

/**
 * Where the window opens: as it was left, unless its screen is gone or smaller by now; otherwise in the middle of the first
 * screen.
 * @param screens the parts of the screens that windows may use, the main one first
 */
export function placeOn(screens: readonly Area[], left: WindowPlace | null): WindowPlace {
  const maximised = left?.maximised ?? false;
  for (const screen of left ? screens : []) {
    const place = { ...sizeOn(screen, left), x: left!.x, y: left!.y };
    if (inReach(place, screen)) return { ...place, maximised };
  }
  const [screen] = screens;
  const { width, height } = sizeOn(screen, left);
  return {
    x: screen.x + Math.round((screen.width - width) / 2),
    y: screen.y + Math.round((screen.height - height) / 2),
    width,
    height,
    maximised,
  };
}

function inReach(place: Area, screen: Area): boolean {
  const across = Math.min(place.x + place.width, screen.x + screen.width) - Math.max(place.x, screen.x);
  const belowTop = place.y >= screen.y && place.y + grip.height <= screen.y + screen.height;
  return across >= grip.width && belowTop;
}

function sizeOn(screen: Area, left: WindowPlace | null) {
  return {
    width: clamp(left?.width ?? usual.width, smallest.width, screen.width),
    height: clamp(left?.height ?? usual.height, smallest.height, screen.height),
  };
}

/** The screen wins over the least size: a window that is larger cannot be reached all over. */
function clamp(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}
