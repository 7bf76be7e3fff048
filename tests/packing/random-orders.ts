import type { MarkerOrder, MarkerPiece } from "../../core/packing/order.ts";
import { pick, type Random, randomFrom } from "../../core/packing/random.ts";

/**
 * An order at random: rectangles, outlines with hollows and slivers, some of them too big, on one or two kinds of stock that
 * may run out, with or without gap and margin, in figures that no grid knows.
 */
export function randomOrder(seed: number, way: MarkerOrder["way"]): MarkerOrder {
  const random = randomFrom(seed);
  const between = (least: number, most: number) => least + random() * (most - least);
  const turns = ([[0], [0, 180], [0, 90], [0, 90, 180, 270]] as const)[pick(random, 4)];
  const rectangles = random() < 0.3;
  const pieces = Array.from({ length: 1 + pick(random, 8) }, (_, i): MarkerPiece => {
    const size = between(60, 900);
    const outline = rectangles || random() < 0.3 ? rectangle(size, between(60, 700)) : star(size / 2, random);
    const [dx, dy] = [between(-500, 500), between(-500, 500)];
    return {
      id: `piece ${i}`,
      outline: outline.map((at, k) => at + (k % 2 === 0 ? dx : dy)),
      quantity: pick(random, 5),
      turns,
      mirror: random() < 0.5,
    };
  });
  const stock = Array.from({ length: 1 + pick(random, 2) }, (_, i) => ({
    id: `stock ${i}`,
    widthMm: between(500, 1600),
    lengthMm: random() < 0.3 ? 60_000 : between(700, 5000),
    count: pick(random, 4),
  }));
  return {
    pieces,
    stock,
    gapMm: random() < 0.5 ? 0 : between(0, 30),
    marginMm: random() < 0.5 ? 0 : between(0, 40),
    way,
    seed,
  };
}

const rectangle = (length: number, width: number) => [0, 0, length, 0, length, width, 0, width];

function star(radius: number, random: Random): number[] {
  const count = 4 + pick(random, 20);
  return Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count).flatMap((angle) => {
    const far = radius * (0.25 + 0.75 * random());
    return [far * Math.cos(angle), far * Math.sin(angle)];
  });
}
