import { counterClockwise, type ExactRing } from "./exact-overlap.ts";

/** A published layout: the strip and the outlines on it, in whole numbers of 10^−20 units. */
export interface RecordLayout {
  readonly length: bigint;
  readonly width: bigint;
  readonly rings: readonly ExactRing[];
  /** For each outline the number of its item in the instance. */
  readonly items: readonly number[];
}

const PLACES = 20;

/** A decimal number as a whole number of 10^−20, exactly. */
export function decimal(text: string): bigint {
  const match = /^(-?)(\d+)(?:\.(\d*))?$/.exec(text);
  if (!match || (match[3] ?? "").length > PLACES)
    throw new RangeError(`${text} is not a short decimal number`);
  const size = BigInt(match[2]) * 10n ** BigInt(PLACES) + BigInt((match[3] ?? "").padEnd(PLACES, "0"));
  return match[1] ? -size : size;
}

/** Reads a layout from the SVG text of the shared records: outlines by item, placed by quarter turns and shifts. */
export function readRecord(svg: string): RecordLayout {
  // From the origin round by the right: the third corner is the far one.
  const strip = readPath(/<path d="([^"]+)"/.exec(svg)?.[1] ?? "");
  const outlines = new Map(
    [...svg.matchAll(/<g id="item_(\d+)">\s*<path d="([^"]+)"/g)].map(([, id, path]) => [id, readPath(path)]),
  );
  const uses = [
    ...svg.matchAll(
      /<use transform="translate\(([^ ]+) ([^)]+)\), rotate\(([^)]+)\)" xlink:href="#item_(\d+)"/g,
    ),
    ...[
      ...svg.matchAll(/<use href="#item_(\d+)" transform="translate\(([^ ]+) ([^)]+)\), rotate\(([^)]+)\)"/g),
    ].map(([all, id, x, y, turn]) => [all, x, y, turn, id]),
  ];
  return {
    length: strip[2][0],
    width: strip[2][1],
    rings: uses.map(([, x, y, turn, id]) => {
      const outline = outlines.get(id);
      if (!outline) throw new RangeError(`no outline of item ${id}`);
      const quarters = ((Number(turn) / 90) % 4) + 4;
      if (!Number.isInteger(quarters)) throw new RangeError(`turned by ${turn}°`);
      return counterClockwise(
        outline.map(([px, py]) => {
          let [qx, qy] = [px, py];
          for (let i = 0; i < quarters % 4; i++) [qx, qy] = [-qy, qx];
          return [qx + decimal(x), qy + decimal(y)];
        }),
      );
    }),
    items: uses.map(([, , , , id]) => Number(id)),
  };
}

function readPath(text: string): (readonly [bigint, bigint])[] {
  const pairs = [...text.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map(
    ([, x, y]) => [decimal(x), decimal(y)] as const,
  );
  if (pairs.length < 3) throw new RangeError(`no outline in "${text}"`);
  return pairs;
}
