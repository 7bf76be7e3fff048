import fc from "fast-check";
import { buildOutline } from "../../core/plan/build-outline.ts";
import type { Outline } from "../../core/plan/chain.ts";
import type { OutlineSpec } from "../../core/project/schema.ts";

const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const wholeMm = (min: number, max: number) => fc.integer({ min, max });

const rectangle = fc.record({
  kind: fc.constant("rectangle" as const),
  length: mm(3000, 15000),
  width: mm(2000, 6000),
  cornerRadius: fc.oneof(mm(25, 1000), fc.tuple(mm(25, 1000), mm(25, 1000), mm(25, 1000), mm(25, 1000))),
});

const stadium = fc.record({
  kind: fc.constant("stadium" as const),
  length: mm(6000, 15000),
  width: mm(2000, 6000),
});

const roundEnded = fc.record({
  kind: fc.constant("round-ended" as const),
  length: wholeMm(4500, 15000),
  width: wholeMm(2000, 6000),
  roundEnd: fc.constantFrom("shallow" as const, "deep" as const),
  cornerRadius: wholeMm(25, 1000),
});

const ell = fc.record({
  kind: fc.constant("ell" as const),
  length: mm(7000, 15000),
  width: mm(4000, 6000),
  cutLength: mm(1200, 4000),
  cutWidth: mm(1200, 2400),
  cutAt: fc.constantFrom(
    "shallow-right" as const,
    "deep-right" as const,
    "deep-left" as const,
    "shallow-left" as const,
  ),
  cornerRadius: mm(25, 500),
  reflexRadius: mm(25, 500),
});

/** Points round an oval, each moved in or out and along: neither convex nor even, but never crossing. */
const ring = fc
  .record({
    length: mm(5000, 13000),
    width: mm(2800, 5000),
    radial: fc.array(mm(0.75, 1), { minLength: 5, maxLength: 12 }),
    along: fc.array(mm(-0.3, 0.3), { minLength: 12, maxLength: 12 }),
    clockwise: fc.boolean(),
  })
  .map(({ length, width, radial, along, clockwise }) => {
    const points = radial.map((r, i): [number, number] => {
      const angle = (2 * Math.PI * (i + along[i])) / radial.length;
      return [(r * length * Math.cos(angle)) / 2, (r * width * Math.sin(angle)) / 2];
    });
    return clockwise ? points.reverse() : points;
  });

const polygon = ring.map((points) => ({ kind: "polygon" as const, points, cornerRadius: 60 }));
const freeform = ring.map((points) => ({ kind: "freeform" as const, points }));

/** Figures of outlines of every kind; nearly all of them can be built. */
export const anySpec: fc.Arbitrary<OutlineSpec> = fc.oneof(
  rectangle,
  stadium,
  roundEnded,
  ell,
  polygon,
  freeform,
);

/** An outline of any kind that was built. */
export const anyOutline: fc.Arbitrary<Outline> = anySpec
  .map((spec) => buildOutline(spec))
  .filter((built) => built.ok)
  .map((built) => built.outline);

/** Builds an outline that must not be refused. */
export function built(spec: OutlineSpec): Outline {
  const result = buildOutline(spec);
  if (!result.ok) throw new Error(`Refused: ${JSON.stringify(result.refusals)}`);
  return result.outline;
}

/** Why an outline was refused; throws when it was built. */
export function refused(spec: OutlineSpec) {
  const result = buildOutline(spec);
  if (result.ok) throw new Error(`The ${spec.kind} was built.`);
  return result.refusals;
}
