import type { MarkerOrder, MarkerPiece } from "../../core/packing/order.ts";
import { randomFrom } from "../../core/packing/random.ts";

/**
 * An order like a lot's: straight bands with bevelled ends and bands round corners, on a remnant and rolls of 1270 mm
 * (sizes: common practice).
 */
export function shopOrder(
  way: MarkerOrder["way"],
  quantity: number,
  more: Partial<MarkerOrder> = {},
): MarkerOrder {
  const random = randomFrom(5);
  const pieces = Array.from({ length: 12 }, (_, i): MarkerPiece => {
    const length = 600 + 1800 * random();
    const width = 250 + 400 * random();
    const outline =
      i % 3 === 0 ? bend(length, width, 1500 + 2000 * random()) : bevelled(length, width, 80 * random());
    return { id: `foot/1${"abcdefghijkl"[i]}`, outline, quantity, turns: [0, 180], mirror: i % 2 === 0 };
  });
  return {
    pieces,
    stock: [
      { id: "rest", widthMm: 1270, lengthMm: 6400, count: 1 },
      { id: "roll", widthMm: 1270, lengthMm: 50_000, count: 3 },
    ],
    gapMm: 6,
    marginMm: 10,
    way,
    seed: 1,
    ...more,
  };
}

const bevelled = (length: number, width: number, bevel: number) => [
  0,
  0,
  length,
  0,
  length - bevel,
  width,
  bevel,
  width,
];

function bend(length: number, width: number, radius: number): number[] {
  const outline: number[] = [];
  const count = 10;
  const at = (i: number, r: number) => {
    const angle = (length / radius) * (i / count - 0.5);
    outline.push(r * Math.sin(angle), radius - r * Math.cos(angle));
  };
  for (let i = 0; i <= count; i++) at(i, radius);
  for (let i = count; i >= 0; i--) at(i, radius - width);
  return outline;
}
