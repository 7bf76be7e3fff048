import { type FieldNear, fieldNear } from "../surface/bricks.ts";
import type { Field } from "../surface/field.ts";

/** The field to use near a point (mm). */
export type Near = FieldNear;

/** The same field evaluated brick by brick: for marches and stops, which follow the surface closely. */
export function marchingField(field: Field): Field {
  const near = fieldNear(field);
  let last = field;
  return {
    evaluate: (x, y, z) => {
      last = near(x, y, z);
      return last.evaluate(x, y, z);
    },
    get gradient() {
      return last.gradient;
    },
    shares: (x, y, z) => near(x, y, z).shares(x, y, z),
    faces: field.faces,
    owner: (shares) => field.owner(shares),
    within: (x, y, z, radius, band) => field.within(x, y, z, radius, band),
    bounds: field.bounds,
    edge: field.edge,
  };
}
